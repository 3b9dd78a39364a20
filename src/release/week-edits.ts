import { formatWeek } from '../plan/dates';
import { setValue } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** A schedule's week put into a fill as its pin. */
export interface WeekEdit {
  readonly fill: string;
  readonly room: string;
  readonly file: string;
  /** As it stands in the plan: `2027-W09`. */
  readonly week: string;
  readonly edits: readonly TextEdit[];
}

/**
 * The schedule's weeks as edits of the plan's text, one for each fill that is opened and has no pin. Everything else in
 * the files stays as it is, comments too.
 */
export function weekEdits(plan: Plan, problem: ReleaseProblem, schedule: ReleaseSchedule): WeekEdit[] {
  return problem.rooms.flatMap((room, index) => {
    const opens = schedule.opens[index] ?? null;
    const fill = plan.fills.get(room.fill);
    const text = fill && plan.files.get(fill.at.file);
    if (opens === null || room.pinned !== null || !text || fill.open || fill.places.entries?.has('open'))
      return [];
    const week = formatWeek(problem.firstWeek + opens);
    const edits = setValue(text, fill.places, ['open'], week);
    return [{ fill: room.fill, room: room.room, file: text.path, week, edits }];
  });
}
