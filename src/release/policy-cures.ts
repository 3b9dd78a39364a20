import { breachesAt } from './breaches';
import { type Cure, curesOf, remembered } from './cures';
import { LEAST_CARTONS } from './least-cartons';
import { cartonsGained, type RoomCure, type Shortage } from './room-cure';
import { Standing } from './standing';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** A value of the plan's packing policy that a planner may write otherwise. */
export type PolicyKey = 'packed-wait' | 'days-to-empty';

/** The same season with one value of the policy otherwise; in days. */
export interface TriedPolicy {
  readonly key: PolicyKey;
  readonly days: number;
  readonly now: number;
  readonly problem: ReleaseProblem;
}

/** What another value of the policy gives a demand in a week that is short. */
export interface PolicyCure extends Omit<TriedPolicy, 'problem'> {
  readonly demand: number;
  readonly week: number;
  /** Cartons fewer that the demand is short of over the season. */
  readonly cartons: number;
  /** Of them, in the week. */
  readonly inWeek: number;
  /** The room that gives them by another week of opening, or by its bins spread anew over more weeks; none where all stays as it is. */
  readonly room?: Pick<RoomCure, 'room' | 'week' | 'cost' | 'also'>;
}

/** What is still short in a week must become smaller by this share. */
const LEAST_SHARE = 0.05;

/**
 * What the plan's own policy would give the weeks that no move within it cures wholly: each value is tried on the schedule
 * as it stands, and with a room opened otherwise. A value under which the schedule would break a wish that it keeps now is
 * left out. Of each key the value nearest the plan's that cures all of the week, else the one that cures most.
 */
export function policyCures(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  cures: readonly Cure[],
  tries: () => Iterable<TriedPolicy>,
): PolicyCure[] {
  const uncured = cures.filter(({ left }) => left >= LEAST_CARTONS);
  if (uncured.length === 0) return [];
  const before = new Standing(problem, schedule);
  const best = new Map<string, PolicyCure>();
  for (const one of tries()) {
    for (const found of triedOn(before, uncured, one)) {
      const key = `${one.key} ${found.demand} ${found.week}`;
      const known = best.get(key);
      if (!known || found.inWeek >= known.inWeek + LEAST_CARTONS) best.set(key, found);
    }
  }
  return [...best.values()];
}

function triedOn(before: Standing, uncured: readonly Cure[], tried: TriedPolicy): PolicyCure[] {
  if (!isOfSameThings(before.problem, tried.problem)) return [];
  const first = new Standing(tried.problem, before.schedule);
  if (breaksMore(before, first)) return [];
  const sold = first.sold.map((row) => Array.from(row));
  const after = new Standing(tried.problem, { ...before.schedule, sold });
  const whatIf = remembered((room, week) => after.whatIf(room, week), tried.problem.weeks);
  const keys = new Set(uncured.map(({ demand, week }) => demand * tried.problem.weeks + week));
  const asked = (demand: number, week: number) => keys.has(demand * tried.problem.weeks + week);
  const moves = new Map(
    curesOf(after, whatIf, asked).map(({ demand, week, move }) => [
      demand * tried.problem.weeks + week,
      move,
    ]),
  );
  const { key, days, now } = tried;
  return uncured.flatMap((cure): PolicyCure[] => {
    const { demand, week, short, left } = cure;
    const shortage = { demand, week, least: Math.max(LEAST_CARTONS, LEAST_SHARE * short) };
    const asItIs = gain(before, after, demand, week);
    const room = bestOf([moves.get(demand * tried.problem.weeks + week), respread(after, shortage, whatIf)]);
    const withRoom = room && short - asItIs.inWeek >= LEAST_CARTONS ? room : undefined;
    const cartons = asItIs.cartons + (withRoom?.cartons ?? 0);
    const inWeek = Math.min(cartons, asItIs.inWeek + (withRoom?.inWeek ?? 0));
    // It must give more than what is named without it.
    if (inWeek < short - left + shortage.least) return [];
    const others = withRoom && {
      room: withRoom.room,
      week: withRoom.week,
      cost: withRoom.cost,
      ...(withRoom.also && { also: withRoom.also }),
    };
    return [{ key, days, now, demand, week, cartons, inWeek, ...(others && { room: others }) }];
  });
}

/** Rooms and demands are the same, so that a schedule of the one can be laid over the other. */
function isOfSameThings(one: ReleaseProblem, other: ReleaseProblem): boolean {
  const names = ({ rooms, demands, weeks }: ReleaseProblem) =>
    JSON.stringify([rooms.map(({ fill }) => fill), demands.map(({ id }) => id), weeks]);
  return names(one) === names(other);
}

function breaksMore(before: Standing, after: Standing): boolean {
  return before.schedule.opens.some((week, room) => {
    if (week === null || before.problem.rooms[room]?.fromField) return false;
    return breachesAt(after, room, week).length > 0 && breachesAt(before, room, week).length === 0;
  });
}

function gain(before: Standing, after: Standing, demand: number, week: number) {
  const more = (at: number) => (after.sold[demand]?.[at] ?? 0) - (before.sold[demand]?.[at] ?? 0);
  let cartons = 0;
  for (let at = 0; at < before.problem.weeks; at++) cartons += more(at);
  return { cartons, inWeek: Math.min(cartons, more(week)) };
}

/** The opened room whose bins, spread anew over the weeks in which it may be emptied then, give the week most. */
function respread(
  after: Standing,
  shortage: Shortage,
  whatIf: (room: number, week: number) => ReturnType<Standing['whatIf']>,
): RoomCure | undefined {
  const { problem, schedule } = after;
  const found = problem.rooms.flatMap((one, room): RoomCure[] => {
    const opens = schedule.opens[room] ?? null;
    const isInReach =
      opens !== null &&
      opens <= shortage.week &&
      shortage.week < opens + one.weeksToEmpty + problem.packedWaitWeeks;
    if (!isInReach || one.fromField || breachesAt(after, room, opens).length > 0) return [];
    const then = whatIf(room, opens);
    const gained = then && cartonsGained(after, shortage, then.sold);
    return gained ? [{ room, week: opens, cost: then.cost, ...gained }] : [];
  });
  return bestOf(found);
}

function bestOf(found: readonly (RoomCure | undefined)[]): RoomCure | undefined {
  return found
    .flatMap((one) => one ?? [])
    .sort((a, b) => b.inWeek - a.inWeek || a.cost - b.cost || a.room - b.room)[0];
}
