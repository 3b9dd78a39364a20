import { checkFill } from '../../fill/checker';
import { lotsOf, newFills } from '../../fill/new-fills';
import { fillProblem } from '../../fill/problem';
import type { FillProblem, FillResult, ProposedRoom } from '../../fill/types';
import type { JudgedFills } from '../../findings/fills/judge';
import type { FruitData } from '../../fruit/types';
import type { Day } from '../../plan/dates';
import { fillEdits } from '../../plan/fill-edits';
import type { Plan } from '../../plan/model';
import type { TextEdit } from '../../plan/problem';
import { cursorAt } from './cursor';
import type { PlacePoint } from './entries';
import { entryAround } from './subject';

/** A proposal that was found for a plan, kept while the planner accepts it room by room. */
export interface KeptFills {
  readonly problem: FillProblem;
  readonly result: FillResult;
  readonly topUp: boolean;
  /** What was taken out of it, and why. */
  readonly judged: JudgedFills;
  readonly remarks: readonly string[];
}

export interface AcceptedFills {
  readonly rooms: readonly string[];
  readonly edits: readonly TextEdit[];
}

/**
 * The proposed rooms that the plan, as it is now, could still take: still free, their lots there with bins enough, and
 * nothing against them by the independent check. Accepting one room leaves the others as they were.
 */
export function openRooms(
  plan: Plan,
  fruit: FruitData,
  kept: KeptFills,
  today: Day | undefined,
): ProposedRoom[] {
  const problem = problemOf(plan, fruit, kept.topUp, today);
  return kept.result.proposal.rooms.filter((room) => isGood(problem, [room]));
}

/** Edits that fill these rooms as proposed; undefined where the plan, as it is now, cannot take them together. */
export function acceptRooms(
  plan: Plan,
  fruit: FruitData,
  kept: KeptFills,
  rooms: readonly ProposedRoom[],
  today: Day | undefined,
): AcceptedFills | undefined {
  const problem = problemOf(plan, fruit, kept.topUp, today);
  if (rooms.length === 0 || !isGood(problem, rooms)) return undefined;
  const edits = fillEdits(plan, newFills(plan, problem, rooms));
  return edits && { rooms: rooms.map(({ room }) => room), edits };
}

const problems = new WeakMap<Plan, Map<string, FillProblem>>();

/** The problem of a plan as it is, worked out once: places are asked about with every movement of the caret. */
function problemOf(plan: Plan, fruit: FruitData, topUp: boolean, today: Day | undefined): FillProblem {
  const known = problems.get(plan) ?? new Map<string, FillProblem>();
  problems.set(plan, known);
  const key = `${topUp} ${today}`;
  const problem = known.get(key) ?? fillProblem(plan, fruit, { topUp, today });
  known.set(key, problem);
  return problem;
}

function isGood(problem: FillProblem, rooms: readonly ProposedRoom[]): boolean {
  const placed = new Map<string, number>();
  for (const { lot, bins } of rooms.flatMap(lotsOf)) placed.set(lot, (placed.get(lot) ?? 0) + bins);
  const unplaced = problem.lots.map(({ id, bins }) => ({ lot: id, bins: bins - (placed.get(id) ?? 0) }));
  const found = checkFill(problem, { rooms, unplaced: unplaced.filter(({ bins }) => bins !== 0), cost: 0 });
  // Once a part of a lot is in a fill, of which days its other bins are the plan no longer says.
  return found.every(({ kind }) => kind === 'cost' || kind === 'picking');
}

/** The proposed room that a place is about: the room itself, or the one that a lot there goes into. */
export function proposedRoomAt(
  plan: Plan,
  rooms: readonly ProposedRoom[],
  { file, offset }: PlacePoint,
): ProposedRoom | undefined {
  const text = plan.files.get(file)?.text;
  const place = text === undefined ? undefined : cursorAt(text, offset);
  const subject = place && entryAround(place);
  // Over a value inside a room or lot that one is meant, whatever the value names.
  const [own, id] = place?.path ?? [];
  const [section, name] =
    subject?.section === 'rooms' || subject?.section === 'lots' ? [subject.section, subject.id] : [own, id];
  if (section === 'rooms') return rooms.find(({ room }) => room === name);
  if (section !== 'lots') return undefined;
  return rooms.find(({ entries }) => entries.some(({ lot }) => lot === name));
}

/** `G1 54, G2 52 and G3 48 bins in early-air`. */
export function whatGoesIn(proposed: ProposedRoom): string {
  const lots = lotsOf(proposed);
  const said = lots.slice(0, 4).map(({ lot, bins }) => `${lot} ${bins}`);
  if (lots.length > 4) said.push(`and ${lots.length - 4} more lots`);
  return `${said.join(', ')}, in ${proposed.regime}`;
}
