import type { Plan } from '../plan/model';
import { finish, type Steps } from '../plan/steps';
import type { RoomReadings } from '../readings/types';
import type { FilledRoom } from '../room/types';
import { cropLessons } from './crop-lessons';
import { firmnessLessons } from './firmness-lessons';
import { GasFits, gasLessonsSteps } from './gas-lessons';
import type { Learned } from './lesson';
import { packoutLessons } from './packout-lessons';

export { GasFits };

/**
 * All that a plan's records and the readings beside it teach: `plan` with its records in it, `filled` of the same plan.
 * Nothing is changed; `lessonEdits` (`written.ts`) makes the edits of what the planner takes. `fits` keeps what was fitted to readings for
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
