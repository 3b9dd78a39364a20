import type { ComputedSeason } from '../findings/types';
import type { RoomKeeping } from '../keeping/types';
import type { Plan } from '../plan/model';
import { releaseProblem } from '../release/problem';
import { quickRelease } from '../release/quick';
import { simpleBound } from '../release/simple-bound';
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
  readonly of: 'old' | 'new' | 'both';
  readonly reference: Reference;
  /** Either plan's schedule in these weeks; undefined for one without a release problem. */
  readonly old: Release | undefined;
  readonly now: Release | undefined;
}

/** Moves of the quick search. Fewer than a check makes: how good the weeks are matters less than that both have them. */
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
 * two searches that went different ways. They are sought for the plan that could be worth more, by the bound that needs
 * no search, and carried over to the other; so it does not matter which plan is called the old one. Undefined where
 * neither plan has a release problem.
 */
export function chosenWeeks(old: Kept, now: Kept, seed: number): ChosenWeeks | undefined {
  const [a, b] = [ranked(old, 'old'), ranked(now, 'new')];
  const first = a && b ? (comesFirst(a, b) ? a : b) : (a ?? b);
  const reference = first && quickWeeks(first.kept, seed);
  if (!reference) return undefined;
  const isOfBoth = a && b && sameProblem(a, b);
  return {
    of: isOfBoth ? 'both' : first.of,
    reference,
    old: keptRelease(old, reference),
    now: keptRelease(now, reference),
  };
}

interface Ranked {
  readonly of: 'old' | 'new';
  readonly kept: Kept;
  readonly bound: number;
  readonly problem: ReleaseProblem;
}

function ranked(kept: Kept, of: 'old' | 'new'): Ranked | undefined {
  const problem = kept.problem?.plain;
  return problem && { of, kept, bound: simpleBound(problem), problem };
}

function sameProblem(a: Ranked, b: Ranked): boolean {
  return a.bound === b.bound && JSON.stringify(a.problem) === JSON.stringify(b.problem);
}

function comesFirst(a: Ranked, b: Ranked): boolean {
  if (a.bound !== b.bound) return a.bound > b.bound;
  return JSON.stringify(a.problem) <= JSON.stringify(b.problem);
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
