import type { ReleaseProblem } from './types';

/** A room that must be packed out from `week` on. */
export interface PinnedRoom {
  readonly room: number;
  readonly week: number;
  readonly bins: number;
  /** Last week in which its bins may be packed. */
  readonly until: number;
  /** True where only some days of that week are left for it. */
  readonly endsWithin: boolean;
}

/** Whether a room of the problem has been opened already. */
export function isOpened({ rooms, standing }: ReleaseProblem, room: number): boolean {
  return standing?.opened.some(({ fill }) => fill === rooms[room]?.fill) ?? false;
}

/** The rooms whose pin lies within their window. */
export function pinnedRooms(problem: ReleaseProblem): PinnedRoom[] {
  return problem.rooms.flatMap((one, room) => {
    const { pinned } = one;
    if (pinned === null || pinned < one.earliest || pinned > one.latest) return [];
    const last = pinned + one.weeksToEmpty - 1;
    const until = Math.min(problem.weeks - 1, last);
    const endsWithin = problem.lastWeekBins !== undefined && until === last;
    return [{ room, week: pinned, bins: one.bins, until, endsWithin }];
  });
}

/**
 * Packs out the pinned rooms, whichever must be done first going first. With one capacity a week that order finds a
 * way whenever there is one, as those that must be done within a week come first in it. Returns bins by room and week, or undefined where the packhouse cannot do it.
 */
export function packPinned(
  problem: ReleaseProblem,
  pinned: readonly PinnedRoom[],
): ReadonlyMap<number, Float64Array> | undefined {
  const { bins, late } = packDueFirst(problem, pinned);
  return late ? undefined : bins;
}

/** Most bins of the pinned rooms that the packhouse can run in their weeks. */
export function mostPacked(problem: ReleaseProblem, pinned: readonly PinnedRoom[]): number {
  let sum = 0;
  for (const row of packDueFirst(problem, pinned).bins.values())
    sum += row.reduce((all, bins) => all + bins, 0);
  return sum;
}

/** Packs what must be done first first; `late` where some of it is left when its time is up. */
function packDueFirst(problem: ReleaseProblem, pinned: readonly PinnedRoom[]) {
  let late = false;
  const bins = new Map(pinned.map(({ room }) => [room, new Float64Array(problem.weeks)]));
  const left = new Map(pinned.map((one) => [one.room, one.bins]));
  const dueFirst = [...pinned].sort(
    (a, b) => a.until - b.until || Number(b.endsWithin) - Number(a.endsWithin) || a.room - b.room,
  );
  for (let week = 0; week < problem.weeks; week++) {
    let free = problem.packingBins[week] ?? 0;
    let freeLast = Math.min(free, problem.lastWeekBins?.[week] ?? free);
    for (const { room, week: opens, until, bins: all, endsWithin } of dueFirst) {
      if (opens > week || until < week) continue;
      const open = left.get(room) ?? 0;
      const taken = Math.min(open, endsWithin && until === week ? freeLast : free);
      const row = bins.get(room);
      if (row) row[week] = taken;
      left.set(room, open - taken);
      free -= taken;
      freeLast = Math.min(freeLast - (endsWithin && until === week ? taken : 0), free);
      if (until === week && open - taken > 1e-9 * Math.max(1, all)) late = true;
    }
  }
  return { bins, late };
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
