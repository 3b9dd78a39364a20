import type { Week } from '../../plan/dates';
import type { SeasonAccount, Task, TaskKind } from './account';

export function tasksOfKinds({ tasks }: SeasonAccount, kinds: readonly TaskKind[]): Task[] {
  return tasks.filter(({ kind }) => kinds.includes(kind));
}

/** Whether lists by week tell the week: all do, unless there is a day to look from. */
export function isTold({ fromWeek }: SeasonAccount, at: Week): boolean {
  return fromWeek === undefined || at >= fromWeek;
}
