import type { Highs } from 'highs';
import type { ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { valueAt } from './oracle';

/** The best value with every room but one held as it is, by the linear program: its bins limited to those it packs. */
export function othersHeld(
  highs: Highs,
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  room: number,
  week: number | null,
) {
  const rooms = problem.rooms.flatMap((one, index) => {
    if (index === room) return [];
    // A room of its own for each week in which the held one is packed.
    const parts = (schedule.packed[index] ?? []).flatMap((bins, at) => (bins > 0 ? [{ bins, at }] : []));
    return parts.map(({ bins, at }, part) => ({
      week: at,
      // In the last week of its emptying, as the packhouse sees it.
      isLast: at === (schedule.opens[index] ?? 0) + one.weeksToEmpty - 1,
      room: {
        ...one,
        bins,
        weeksToEmpty: 1,
        riskCost: one.riskCost.map(() => (part === 0 ? risk(one, index) : 0)),
      },
    }));
  });
  function risk(one: ReleaseProblem['rooms'][number], index: number) {
    const opens = schedule.opens[index] ?? null;
    return opens === null ? 0 : (one.riskCost[opens] ?? 0);
  }
  const moved = problem.rooms[room] as ReleaseProblem['rooms'][number];
  return valueAt(
    highs,
    { ...problem, rooms: [...rooms.map((one) => one.room), moved], roomsOpenAtOnce: null },
    [...rooms.map((one) => one.week), week],
    (part, at) => rooms[part]?.isLast ?? at === (week ?? 0) + moved.weeksToEmpty - 1,
  );
}
