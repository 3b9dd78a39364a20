import { sourcesOf } from './sources';
import type { ProblemDemand, ProblemRoom, ReleaseProblem } from './types';

/**
 * Most cartons that any schedule delivers of an order, were there no other: each room gives it what can be packed within
 * its reach, that is of one opening in its window, in the weeks of its emptying, at the packhouse's bins a week, for weeks
 * of the order that the cartons may wait for. No schedule delivers more; what others want may leave it less.
 */
export function mostForOrder(
  problem: ReleaseProblem,
  demand: ProblemDemand,
  unmet: readonly number[] = [],
): number {
  const inTime = weeksInTime(problem, demand);
  const rooms = problem.rooms.flatMap((room, index) =>
    unmet.includes(index) ? [] : [{ room, aBin: cartonsABin(problem, room, inTime) }],
  );
  const given = rooms.reduce((all, { room, aBin }) => all + mostOfRoom(problem, demand, room, aBin), 0);
  const inWeeks = demand.cartons.reduce(
    (all, wanted, week) => all + (wanted > 0 ? Math.min(wanted, mostInWeek(problem, rooms, week)) : 0),
    0,
  );
  return Math.min(inWeeks, given);
}

/** For each product the order takes, whether what is packed in a week may still be sold to it: `[week]`. */
function weeksInTime(
  problem: ReleaseProblem,
  demand: ProblemDemand,
): readonly { readonly product: number; readonly weeks: readonly boolean[] }[] {
  const { weeks, packedWaitWeeks } = problem;
  return sourcesOf(problem, demand).map(({ product, until }) => ({
    product,
    weeks: Array.from({ length: weeks }, (_, week) =>
      demand.cartons.some(
        (cartons, sold) => cartons > 0 && sold >= week && sold <= Math.min(week + packedWaitWeeks, until),
      ),
    ),
  }));
}

/** Cartons for the order that a bin of the room gives by the week in which it is packed; 0 where it is not or they come too late. */
function cartonsABin(
  { weeks }: ReleaseProblem,
  room: ProblemRoom,
  inTime: ReturnType<typeof weeksInTime>,
): Float64Array {
  const aBin = new Float64Array(weeks);
  const [first, latest] = openings(room);
  const last = Math.min(weeks - 1, latest + room.weeksToEmpty - 1);
  for (let week = Math.max(0, first); week <= last; week++)
    for (const source of inTime)
      if (source.weeks[week])
        aBin[week] = (aBin[week] ?? 0) + (room.cartonsABin[week]?.[source.product] ?? 0);
  return aBin;
}

function openings({ pinned, earliest, latest }: ProblemRoom): readonly [number, number] {
  return pinned === null ? [earliest, latest] : [pinned, pinned];
}

/** Of the openings that the room may have the one that gives the order most. */
function mostOfRoom(
  problem: ReleaseProblem,
  { cartons }: ProblemDemand,
  room: ProblemRoom,
  aBin: Float64Array,
): number {
  const { packingBins, packedWaitWeeks, weeks } = problem;
  const [first, latest] = openings(room);
  let most = 0;
  for (let opens = Math.max(0, first); opens <= latest; opens++) {
    let [best, packed, wanted, next] = [0, 0, 0, opens];
    for (let week = opens; week < Math.min(weeks, opens + room.weeksToEmpty); week++) {
      const one = aBin[week] ?? 0;
      if (one <= 0) continue;
      best = Math.max(best, one);
      packed += one * (packingBins[week] ?? 0);
      // Each week that the cartons may wait for is wanted in once.
      for (next = Math.max(next, week); next <= Math.min(weeks - 1, week + packedWaitWeeks); next++)
        wanted += cartons[next] ?? 0;
    }
    most = Math.max(most, Math.min(room.bins * best, packed, wanted));
  }
  return most;
}

/** Most cartons that are there for one week of the order, from whatever rooms. */
function mostInWeek(
  { packingBins, packedWaitWeeks }: ReleaseProblem,
  rooms: readonly { readonly room: ProblemRoom; readonly aBin: Float64Array }[],
  week: number,
): number {
  const first = Math.max(0, week - packedWaitWeeks);
  let packed = 0;
  for (let at = first; at <= week; at++) {
    const best = rooms.reduce((most, { aBin }) => Math.max(most, aBin[at] ?? 0), 0);
    packed += best * (packingBins[at] ?? 0);
  }
  const given = rooms.reduce(
    (all, { room, aBin }) =>
      all + room.bins * aBin.subarray(first, week + 1).reduce((a, b) => Math.max(a, b), 0),
    0,
  );
  return Math.min(packed, given);
}
