import type { Day } from '../../plan/dates';
import type { Figure } from '../../plan/figure';
import { carbonDioxidePerLime, limeUtilisation } from '../lime';
import type { RoomCourse } from './types';

/** No more changes are told: a charge of a few grams is a mistyped number. */
const MOST_CHANGES = 1000;

/**
 * The days on which a charge of lime is used up and has to be changed, from what the course scrubs. Empty where the
 * charge lasts to the opening.
 */
export function limeChanges(
  { course, sealed }: Pick<RoomCourse, 'course' | 'sealed'>,
  charge: Figure<'kg'>,
  utilisation: Figure<'%'> = limeUtilisation,
): Day[] {
  const takesUp = (charge.value * carbonDioxidePerLime.value * utilisation.value) / 100;
  if (!(takesUp > 0)) return [];
  const days: Day[] = [];
  for (const { hours, scrubbedKg } of course.points) {
    while (scrubbedKg >= takesUp * (days.length + 1) && days.length < MOST_CHANGES)
      days.push(sealed + Math.floor(hours / 24));
  }
  return days;
}
