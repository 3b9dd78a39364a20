import { plainText, setValue } from '../plan/edits';
import type { Plan } from '../plan/model';
import type { TextEdit } from '../plan/problem';
import { finish, type Steps } from '../plan/steps';
import type { RoomReadings } from '../readings/types';
import type { FilledRoom } from '../room/types';
import { cropLessons } from './crop-lessons';
import { firmnessLessons } from './firmness-lessons';
import { GasFits, gasLessonsSteps } from './gas-lessons';
import type { Learned, Lesson, LessonValue } from './lesson';
import { packoutLessons } from './packout-lessons';

export { GasFits };

/**
 * All that a plan's records and the readings beside it teach: `plan` with its records in it, `filled` of the same plan.
 * Nothing is changed; `lessonEdits` makes the edits of what the planner takes. `fits` keeps what was fitted to readings for
 * whoever asks again.
 */
export function* learnAllSteps(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  readings: ReadonlyMap<string, RoomReadings>,
  fits: GasFits = new GasFits(),
): Steps<Learned> {
  const all = [yield* gasLessonsSteps(plan, filled, readings, fits)];
  for (const learn of [firmnessLessons, packoutLessons, cropLessons]) {
    yield;
    all.push(learn(plan, filled));
  }
  return { lessons: all.flatMap(({ lessons }) => lessons), not: all.flatMap(({ not }) => not) };
}

/** The same at once. */
export function learnAll(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  readings: ReadonlyMap<string, RoomReadings>,
): Learned {
  return finish(learnAllSteps(plan, filled, readings));
}

/** Whether any of the plan's records could teach something: readings, samples, packed runs, or receipts. */
export function hasRecordsToLearnFrom({ readings, samples, packed, lots }: Plan): boolean {
  if (readings.size > 0 || samples.size > 0 || packed.size > 0) return true;
  for (const { receivedBins } of lots.values()) if (receivedBins) return true;
  return false;
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
