import { plainText, setValue } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import type { Lesson, LessonValue } from './lesson';

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

/** Whether the plan says just what the lesson would write. */
export function isWritten(plan: Plan, lesson: Lesson): boolean {
  const edits = lessonEdits(plan, lesson);
  return (
    edits.length > 0 &&
    edits.every(({ at, newText }) => plan.files.get(at.file)?.text.slice(at.start, at.end) === newText)
  );
}

/** Whether the records say other than the plan: a value that it reckons with lies outside of what they leave likely. */
export function differs({ values }: Lesson): boolean {
  return values.some(isOutside);
}

export function isOutside({ before, fitted: { low, high } }: LessonValue): boolean {
  return before === undefined || before < low || before > high;
}
