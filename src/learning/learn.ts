import { plainText, setValue } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import type { RoomReadings } from '../readings/types';
import type { FilledRoom } from '../room/types';
import { cropLessons } from './crop-lessons';
import { firmnessLessons } from './firmness-lessons';
import { gasLessons } from './gas-lessons';
import type { Learned, Lesson } from './lesson';
import { packoutLessons } from './packout-lessons';

/**
 * All that a plan's records and the readings beside it teach: `plan` with its records in it, `filled` of the same plan.
 * Nothing is changed; `lessonEdits` makes the edits of what the planner takes.
 */
export function learnAll(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  readings: ReadonlyMap<string, RoomReadings>,
): Learned {
  const all = [
    gasLessons(plan, filled, readings),
    firmnessLessons(plan, filled),
    packoutLessons(plan),
    cropLessons(plan),
  ];
  return { lessons: all.flatMap(({ lessons }) => lessons), not: all.flatMap(({ not }) => not) };
}

/** The edits that write a lesson into the plan, in place of one written before; comments and order stay. */
export function lessonEdits(plan: Plan, lesson: Lesson): TextEdit[] {
  const entry = plan[lesson.section].get(lesson.entry);
  const file = entry && plan.files.get(entry.at.file);
  if (!entry || !file) return [];
  return setValue(file, entry.places, [lesson.key], writtenValue(lesson));
}

/** The value as it stands in the plan, its source beside it. */
export function writtenValue({ written, source }: Lesson): string {
  const pairs = [...written, ['source', plainText(source)] as const];
  return `{ ${pairs.map(([key, value]) => `${key}: ${value}`).join(', ')} }`;
}
