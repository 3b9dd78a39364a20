import type { ProblemRoom, ReleaseProblem } from './types';

/**
 * Money that a bin brings where it is not packed: for fruit from the field what the cartons it would have given in the
 * first of its weeks bring in processing, so that nothing is packed for processing alone; 0 for a room's, which is
 * packed whole or not at all.
 */
export function worthUnpacked(
  { processingPrice }: Pick<ReleaseProblem, 'processingPrice'>,
  { fromField, earliest, cartonsABin }: ProblemRoom,
): number {
  if (!fromField) return 0;
  return processingPrice * (cartonsABin[earliest] ?? []).reduce((sum, cartons) => sum + cartons, 0);
}

/** Bins of each room's fruit from the field that are not packed; 0 for rooms. */
export function binsUnpacked(room: ProblemRoom, packed: ArrayLike<number> | undefined): number {
  if (!room.fromField) return 0;
  let left = room.bins;
  for (let week = 0; week < (packed?.length ?? 0); week++) left -= packed?.[week] ?? 0;
  return Math.max(0, left);
}

/** What all fruit from the field that is not packed brings, in money. */
export function moneyUnpacked(problem: ReleaseProblem, packed: readonly (readonly number[])[]): number {
  return problem.rooms.reduce(
    (sum, room, at) => sum + worthUnpacked(problem, room) * binsUnpacked(room, packed[at]),
    0,
  );
}
