import type { ReleaseProblem } from './types';

/** A room that must be packed out from `week` on. */
export interface PinnedRoom {
  readonly room: number;
  readonly week: number;
  readonly bins: number;
  /** Last week in which its bins may be packed. */
  readonly until: number;
}

/** The rooms whose pin lies within their window. */
export function pinnedRooms(problem: ReleaseProblem): PinnedRoom[] {
  return problem.rooms.flatMap((one, room) => {
    const { pinned } = one;
    if (pinned === null || pinned < one.earliest || pinned > one.latest) return [];
    const until = Math.min(problem.weeks, pinned + one.weeksToEmpty) - 1;
    return [{ room, week: pinned, bins: one.bins, until }];
  });
}

/**
 * Packs out the pinned rooms, whichever must be done first going first. With one capacity a week that order finds a
 * way whenever there is one. Returns bins by room and week, or undefined where the packhouse cannot do it.
 */
export function packPinned(
  problem: ReleaseProblem,
  pinned: readonly PinnedRoom[],
): ReadonlyMap<number, Float64Array> | undefined {
  const bins = new Map(pinned.map(({ room }) => [room, new Float64Array(problem.weeks)]));
  const left = new Map(pinned.map((one) => [one.room, one.bins]));
  const dueFirst = [...pinned].sort((a, b) => a.until - b.until || a.room - b.room);
  for (let week = 0; week < problem.weeks; week++) {
    let free = problem.packingBins[week] ?? 0;
    for (const { room, week: opens, until, bins: all } of dueFirst) {
      if (opens > week || until < week) continue;
      const open = left.get(room) ?? 0;
      const taken = Math.min(open, free);
      const row = bins.get(room);
      if (row) row[week] = taken;
      left.set(room, open - taken);
      free -= taken;
      if (until === week && open - taken > 1e-9 * Math.max(1, all)) return undefined;
    }
  }
  return bins;
}

/** True where no week has more pinned rooms standing open than may. */
export function withinOpenLimit(problem: ReleaseProblem, pinned: readonly PinnedRoom[]): boolean {
  const limit = problem.roomsOpenAtOnce;
  if (limit === null) return true;
  for (let week = 0; week < problem.weeks; week++) {
    if (pinned.filter((one) => one.week <= week && week <= one.until).length > limit) return false;
  }
  return true;
}
