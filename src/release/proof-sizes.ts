import type { ReleaseProblem } from './types';

/** Rooms up to which a proof is so cheap that it is always asked for, and prices are not. */
const FEW_ROOMS = 6;

/** Rooms up to which the cases are of the whole season; beyond, there would be no end of them. */
const MOST_ROOMS_WHOLE = 20;

/** Attribution rows pay up to about this many rooms; beyond, the plain relaxation is nearly as close. */
const MOST_ROOMS_ATTRIBUTED = 100;

/** Cases of branch and bound, where nobody says otherwise: more than the time limit allows as a rule. */
export const MOST_CASES = 20_000;

/**
 * How a season is proven, by its rooms: by the relaxation of cases of the whole; with prices besides, for the search; by
 * cases at prices; or, where rooms are many, by prices and the plain relaxation.
 */
export type WayToProve = 'whole' | 'whole beside prices' | 'cases at prices' | 'plain relaxation';

export function wayToProve({ rooms }: ReleaseProblem): WayToProve {
  if (rooms.length <= FEW_ROOMS) return 'whole';
  if (rooms.length <= MOST_ROOMS_WHOLE) return 'whole beside prices';
  return rooms.length <= MOST_ROOMS_ATTRIBUTED ? 'cases at prices' : 'plain relaxation';
}

/** Whether what prices ask is enough work for a second thread to be started for it. */
export function paysBeside(problem: ReleaseProblem): boolean {
  const way = wayToProve(problem);
  return way === 'cases at prices' || way === 'plain relaxation';
}

/** Whether a long search is better spent around the best schedule so far than on a longer way to it: up to a hundred rooms. */
export function paysRefining({ rooms }: ReleaseProblem): boolean {
  return rooms.length <= MOST_ROOMS_ATTRIBUTED;
}
