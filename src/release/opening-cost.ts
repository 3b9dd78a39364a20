import type { ProblemRoom } from './types';

/** What opening a room in a week counts against the schedule, or leaving it closed: the risk of soft fruit. */
export function openingCost(room: ProblemRoom, week: number | null): number {
  return week === null ? 0 : (room.riskCost[week] ?? 0);
}
