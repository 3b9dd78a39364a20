import type { ComputedSeason } from '../findings/types';
import type { Day } from '../plan/dates';
import { present } from './parts';

/** Days by which a sealed room has come to 5 % oxygen and to its set-point. */
export interface GasDays {
  readonly fivePercent?: Day;
  readonly setPoint?: Day;
}

/** Courses count from the beginning of a day; the first bin comes, and the door is shut, some time in it. */
export const WITHIN_THE_DAY = 1;

/** As computed, by the room's course from the day of sealing, as it was or is to be; nothing of a room without a course. */
export function expectedGasDays({ courses }: ComputedSeason, fill: string): GasDays {
  const course = courses?.courses.get(fill);
  if (!course) return {};
  const by = (hours: number | undefined) =>
    hours === undefined ? undefined : course.sealed + Math.floor(hours / 24) + WITHIN_THE_DAY;
  return present({
    fivePercent: by(course.hoursToFivePercent?.value),
    setPoint: by(course.hoursToSetPoint?.value),
  });
}

/** As recorded; what is not recorded, as computed. */
export function gasDays(season: ComputedSeason, fill: string): GasDays {
  const progress = season.plan.progress.get(fill);
  const expected = expectedGasDays(season, fill);
  return present({
    fivePercent: progress?.lowOxygen?.value ?? expected.fivePercent,
    setPoint: progress?.setPoint?.value ?? expected.setPoint,
  });
}
