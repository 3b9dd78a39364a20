import type { Week } from '../plan/dates';
import { quickRelease } from './quick';
import type { ReleaseProblem, ReleaseResult, SearchOptions } from './types';

/**
 * A quick schedule in which rooms open in the weeks published before, by fill. A pin of the plan goes before; a week
 * outside the room's window is not kept, and rooms that have none get one. What it is worth and its bound are those of
 * the weeks kept.
 */
export function releaseInWeeks(
  problem: ReleaseProblem,
  published: ReadonlyMap<string, Week>,
  options: SearchOptions,
): ReleaseResult {
  const rooms = problem.rooms.map((room) => {
    const week = published.get(room.fill);
    const at = week === undefined ? undefined : week - problem.firstWeek;
    const keeps =
      at !== undefined && room.pinned === null && !room.fromField && at >= room.earliest && at <= room.latest;
    return keeps ? { ...room, pinned: at } : room;
  });
  return quickRelease({ ...problem, rooms }, options);
}
