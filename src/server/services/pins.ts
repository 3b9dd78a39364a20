import { formatWeek, parseWeek } from '../../plan/dates';
import { setValue } from '../../plan/edits';
import type { Plan } from '../../plan/model';
import { openedByPacking } from '../../plan/opened-by-packing';
import { type WeekEdit, weekEdits } from '../../release/week-edits';
import type { Release } from '../kept-schedule';
import { cursorAt } from './cursor';
import type { PlacePoint } from './entries';
import { entryAround } from './subject';

/** The schedule's weeks that can be written into the plan: all of them, or that of one fill. */
export function pinsOf(plan: Plan, release: Release | undefined, fill?: string): WeekEdit[] {
  if (!release) return [];
  const pins = weekEdits(plan, release.problem, release.result.schedule);
  return fill === undefined ? pins : pins.filter((pin) => pin.fill === fill);
}

/**
 * A fill's pin set to a week of the planner's choice, in place of the one it has; nothing where it is that week, or where
 * the fill has been opened: that no pin moves any more.
 */
export function pinTo(plan: Plan, fill: string, week: string): WeekEdit[] {
  const found = plan.fills.get(fill);
  const text = found && plan.files.get(found.at.file);
  if (!found || !text || parseWeek(week) === undefined) return [];
  if (plan.progress.get(fill)?.opened || openedByPacking(plan).has(fill)) return [];
  if (found.open && formatWeek(found.open.value) === week) return [];
  const edits = setValue(text, found.places, ['open'], week);
  return [{ fill, room: found.room?.value ?? fill, file: text.path, week, edits }];
}

/** The fill whose text the place lies in, or that is named there. */
export function fillAt(plan: Plan, point: PlacePoint): string | undefined {
  const text = plan.files.get(point.file)?.text;
  const place = text === undefined ? undefined : cursorAt(text, point.offset);
  const subject = place && entryAround(place);
  if (subject?.section === 'fills') return subject.id;
  // Over a room's or lot's name inside a fill the fill is still meant.
  const [section, id] = place?.path ?? [];
  return section === 'fills' ? id : undefined;
}
