import type { Plan } from '../../plan/model';
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
