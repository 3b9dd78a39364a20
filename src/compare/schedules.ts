import type { ComputedSeason } from '../findings/types';
import type { RoomKeeping } from '../keeping/types';
import type { Plan } from '../plan/model';
import { releaseProblem } from '../release/problem';
import { quickRelease } from '../release/quick';
import type { ReleaseProblem } from '../release/types';
import { keptResult, type Reference, referenceOf } from './kept-weeks';

type Release = NonNullable<ComputedSeason['release']>;

/** A plan, how long its rooms keep, and its release problem. */
export interface Kept {
  readonly plan: Plan;
  /** Undefined where the plan has too little for one. */
  readonly problem: PricedProblem | undefined;
}

/** A release problem with what each week counts that a room is moved by, in money, by fill. */
interface PricedProblem {
  readonly plain: ReleaseProblem;
  readonly prices: ReadonlyMap<string, number>;
}

/** The weeks both plans are compared in. */
export interface ChosenWeeks {
  readonly of: 'old' | 'new';
  readonly reference: Reference;
  /** Either plan's schedule in these weeks; undefined for one without a release problem. */
  readonly old: Release | undefined;
  readonly now: Release | undefined;
}

/**
 * Moves of the quick search. Fewer than a check makes: what is compared is not how good a schedule is, and both plans
 * get the better of two.
 */
const MOVES = 6_000;

export function keptPlan(plan: Plan, keeping: ReadonlyMap<string, RoomKeeping>): Kept {
  // Any week does: only the price of leaving it is asked for.
  const published = new Map([...plan.fills.keys()].map((fill) => [fill, 0]));
  const priced = releaseProblem(plan, keeping, { published });
  if (!priced) return { plan, problem: undefined };
  const prices = new Map(priced.rooms.map((room) => [room.fill, room.published?.price ?? 0]));
  const plain = { ...priced, rooms: priced.rooms.map(({ published: _price, ...room }) => room) };
  return { plan, problem: { plain, prices } };
}

/**
 * One set of opening weeks for both plans, so that a difference between their schedules comes of the plans and not of
 * two searches that went different ways. Quick weeks are found for either plan and carried over to the other; those
 * with which the two plans together are worth most are chosen. So it does not matter which plan is called the old one.
 * Undefined where neither plan has a release problem.
 */
export function chosenWeeks(old: Kept, now: Kept, seed: number): ChosenWeeks | undefined {
  const candidates = (['old', 'new'] as const).flatMap((of) => {
    const reference = quickWeeks(of === 'old' ? old : now, seed);
    if (!reference) return [];
    const kept = { old: keptRelease(old, reference), now: keptRelease(now, reference) };
    const worth = (kept.old?.result.schedule.value ?? 0) + (kept.now?.result.schedule.value ?? 0);
    return [{ of, reference, ...kept, worth, text: textOf(reference) }];
  });
  const [a, b] = candidates;
  if (!a || !b) return a ?? b;
  if (a.worth !== b.worth) return a.worth > b.worth ? a : b;
  return a.text <= b.text ? a : b;
}

/** The plan's schedule in the weeks of the reference. Moving a room counts while it is made, not in what it is worth. */
export function keptRelease({ problem }: Kept, reference: Reference, asksAll = false): Release | undefined {
  if (!problem) return undefined;
  const { plain, prices } = problem;
  const rooms = plain.rooms.map((room) => {
    const before = reference.rooms.get(room.fill);
    if (!before) return room;
    return { ...room, published: { week: before.week - plain.firstWeek, price: prices.get(room.fill) ?? 0 } };
  });
  return { problem: plain, result: keptResult({ ...plain, rooms }, plain, reference, asksAll) };
}

/** Quick weeks of a plan, after which no room gains by moving once more. */
function quickWeeks(kept: Kept, seed: number): Reference | undefined {
  if (!kept.problem) return undefined;
  const { plain } = kept.problem;
  const quick = quickRelease(plain, { seed, moves: MOVES });
  const found = keptRelease(kept, referenceOf(plain, quick), true);
  return found && referenceOf(found.problem, found.result);
}

function textOf({ rooms, problem }: Reference): string {
  const weeks = [...rooms].map(([fill, { week, packed }]) => `${fill} ${week} ${packed.join(' ')}`);
  return `${problem.firstWeek}\n${weeks.sort().join('\n')}`;
}
