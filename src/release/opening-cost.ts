import type { ProblemRoom } from './types';

/**
 * What opening a room in a week counts against the schedule, or leaving it closed (null): the risk of soft fruit, and
 * the weeks it is moved by from the schedule published last.
 */
export function openingCost(room: ProblemRoom, week: number | null): number {
  const { published } = room;
  const change = published ? published.price * weeksMoved(room, published.week, week) : 0;
  return week === null ? change : (room.riskCost[week] ?? 0) + change;
}

function weeksMoved({ earliest, latest }: ProblemRoom, published: number, week: number | null): number {
  if (week !== null) return Math.abs(week - published);
  return Math.max(1, Math.abs(earliest - published), Math.abs(latest - published));
}
