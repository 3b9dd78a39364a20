import { cartonsPacked } from './settle';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** Where the packed cartons of a room go. */
export interface RoomSales {
  readonly packed: number;
  /** Of them, those that nobody buys: they go to processing. */
  readonly unsold: number;
  /** The first week in which some are; absent where none is. */
  readonly unsoldFrom?: number;
}

/**
 * What is packed of each room and how much of it is never sold, in the order of the rooms. Cartons for processing are
 * taken from those packed in the same week, then from the weeks before, newest first; rooms that pack the same product in
 * a week share them by their cartons.
 */
export function salesOfRooms(problem: ReleaseProblem, schedule: ReleaseSchedule): RoomSales[] {
  const packed = problem.rooms.map(() => 0);
  const unsold = problem.rooms.map(() => 0);
  const from = problem.rooms.map((): number | undefined => undefined);
  const shares = cartonsPacked(problem, schedule.packed).map((cartons, product) =>
    unsoldShares(cartons, schedule.processed[product] ?? []),
  );
  problem.rooms.forEach((room, at) => {
    schedule.packed[at]?.forEach((bins, week) => {
      if (bins <= 0) return;
      room.cartonsABin[week]?.forEach((aBin, product) => {
        const lost = bins * aBin * (shares[product]?.[week] ?? 0);
        packed[at] = (packed[at] ?? 0) + bins * aBin;
        unsold[at] = (unsold[at] ?? 0) + lost;
        if (lost >= 1) from[at] = Math.min(from[at] ?? week, week);
      });
    });
  });
  return problem.rooms.map((_, at) => {
    const unsoldFrom = from[at];
    return {
      packed: packed[at] ?? 0,
      unsold: unsold[at] ?? 0,
      ...(unsoldFrom !== undefined && { unsoldFrom }),
    };
  });
}

/** For each week of packing the share of its cartons that ends in processing. */
function unsoldShares(packed: ArrayLike<number>, processed: ArrayLike<number>): number[] {
  const lost = Array.from(packed, () => 0);
  for (let week = 0; week < lost.length; week++) {
    let left = processed[week] ?? 0;
    for (let at = week; at >= 0 && left > 0; at--) {
      const taken = Math.min(left, (packed[at] ?? 0) - (lost[at] ?? 0));
      lost[at] = (lost[at] ?? 0) + taken;
      left -= taken;
    }
  }
  return lost.map((cartons, week) => ((packed[week] ?? 0) > 0 ? cartons / (packed[week] ?? 1) : 0));
}
