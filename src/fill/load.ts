import type { Day } from '../plan/dates';
import type { FillProblem, FreeRoom } from './types';
import { easyFillingDays, likeWeeks, usualFillingDays, weights, wellFilled } from './weights';

/** What a room takes: bins of lots by their arrivals, in the order of `LotToPlace.arrivals`. Never changed in place. */
export interface RoomLoad {
  /** Index into the problem's regimes. */
  readonly regime: number;
  readonly parts: readonly LoadPart[];
  readonly bins: number;
  readonly firstDay: Day;
  readonly cost: number;
}

export interface LoadPart {
  readonly lot: number;
  readonly bins: number;
  readonly byArrival: readonly number[];
}

/**
 * The load of a room with its cost, or undefined where it cannot be: more bins than places, or more on a day than may
 * come in even though bins wait, or a filling that takes too long. Bins go in as early as they can.
 */
export function loadOf(
  problem: FillProblem,
  room: FreeRoom,
  regime: number,
  parts: readonly LoadPart[],
): RoomLoad | undefined {
  let bins = 0;
  for (const part of parts) bins += part.bins;
  if (bins === 0 || bins > room.places) return undefined;
  const filling = bestFilling(problem, room, parts, bins);
  if (!filling) return undefined;
  const cost =
    weights.room +
    (room.costInRegime[regime] ?? 0) +
    weights.emptyPlace * (room.places - bins) +
    (bins < wellFilled * room.places ? weights.partlyFilled : 0) +
    filling.cost +
    unlikeCost(problem, room, regime, parts);
  return { regime, parts, bins, firstDay: filling.firstDay, cost };
}

interface Filling {
  readonly firstDay: Day;
  readonly days: number;
  /** Of days and of waiting. */
  readonly cost: number;
}

/** Where filling is slow, the first bins may wait so that it begins, and so ends its count of days, later. */
function bestFilling(
  problem: FillProblem,
  room: FreeRoom,
  parts: readonly LoadPart[],
  bins: number,
): Filling | undefined {
  let best = fillingFrom(problem, room, parts, bins, room.ready ?? Number.NEGATIVE_INFINITY);
  if (best && best.days <= easyFillingDays) return best;
  const [picked] = pickingDays(problem, parts);
  for (let later = 1; later <= problem.mostWaitingDays; later++) {
    const start = Math.max(room.ready ?? picked, picked + later);
    const filling = fillingFrom(problem, room, parts, bins, start);
    if (filling && (!best || filling.cost < best.cost)) best = filling;
  }
  return best;
}

function fillingFrom(
  problem: FillProblem,
  room: FreeRoom,
  parts: readonly LoadPart[],
  bins: number,
  start: Day,
): Filling | undefined {
  const [from, to] = pickingDays(problem, parts);
  const wait = problem.mostWaitingDays;
  // A picking day too many already cannot be filled in time, however bins wait.
  if (to - from - wait >= problem.mostFillingDays) return undefined;
  const arrived = arrivedBy(problem, parts, from, to);
  let [entered, waited, firstDay, lastDay] = [0, 0, 0, 0];
  for (let day = from; entered < bins; day++) {
    const here = arrived[Math.min(day, to) - from] ?? 0;
    const mayEnter = day < start ? 0 : room.binsADay;
    const now = Math.min(mayEnter, here - entered);
    if (now > 0) {
      if (entered === 0) firstDay = day;
      lastDay = day;
    }
    entered += now;
    const mustBeIn = day - wait < from ? 0 : (arrived[Math.min(day - wait, to) - from] ?? 0);
    if (entered < mustBeIn) return undefined;
    waited += here - entered;
  }
  const days = lastDay - firstDay + 1;
  if (days > problem.mostFillingDays) return undefined;
  const cost =
    weights.fillingDay * Math.max(0, days - easyFillingDays) +
    weights.slowFillingDay * Math.max(0, days - usualFillingDays) +
    weights.waitingBinDay * waited;
  return { firstDay, days, cost };
}

function pickingDays({ lots }: FillProblem, parts: readonly LoadPart[]): [first: Day, last: Day] {
  let [from, to] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { lot, byArrival } of parts)
    for (let index = 0; index < byArrival.length; index++) {
      if (!byArrival[index]) continue;
      const day = lots[lot]?.arrivals[index]?.day ?? 0;
      if (day < from) from = day;
      if (day > to) to = day;
    }
  return [from, to];
}

/** Bins picked up to the end of each day. */
function arrivedBy({ lots }: FillProblem, parts: readonly LoadPart[], from: Day, to: Day): number[] {
  const arrived = new Array<number>(to - from + 1).fill(0);
  for (const { lot, byArrival } of parts)
    for (let index = 0; index < byArrival.length; index++) {
      const bins = byArrival[index] as number;
      if (bins === 0) continue;
      const at = (lots[lot]?.arrivals[index]?.day ?? from) - from;
      arrived[at] = (arrived[at] as number) + bins;
    }
  for (let index = 1; index < arrived.length; index++)
    arrived[index] = (arrived[index] as number) + (arrived[index - 1] as number);
  return arrived;
}

/** What it costs that the lots of a room are not alike, and that the regime is not the best for them. */
function unlikeCost(
  { lots }: FillProblem,
  room: FreeRoom,
  regime: number,
  parts: readonly LoadPart[],
): number {
  let cost = 0;
  let [longest, shortest] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  let [soonest, last] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  const growers = new Set<string>();
  for (const { lot, bins } of parts) {
    const one = lots[lot];
    const keeps = one?.keeps[regime];
    if (!one || !keeps) return Number.POSITIVE_INFINITY;
    cost += bins * keeps.costABin;
    soonest = Math.min(soonest, keeps.latest);
    last = Math.max(last, keeps.latest);
    if (one.term !== null) {
      longest = Math.min(longest, one.term);
      shortest = Math.max(shortest, one.term);
    }
    growers.add(one.grower);
  }
  return (
    cost +
    weights.grower * growers.size +
    weights.termStep * room.places * Math.max(0, shortest - longest) +
    weights.weekApart * room.places * Math.max(0, last - soonest - likeWeeks)
  );
}
