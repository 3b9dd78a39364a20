import { figureWith } from '../plan/figure';
import { oxygenClimbs } from '../room/course/climbs';
import { roomCourse } from '../room/course/room-course';
import { filledRoom } from '../room/filled-room';
import type { FilledRoom } from '../room/types';
import { onceFor } from './courses';
import type { ComputedSeason } from './types';

/**
 * The fewest bins, more than a fill has and no more than its room has places, with which its oxygen does not climb to its
 * end: of the same lots in the same shares, each number tried on the room's course. Null where a full room does not hold
 * it either; undefined where it has not been tried yet.
 */
export function binsThatHold(season: ComputedSeason, filled: FilledRoom): number | null | undefined {
  return onceFor(season.courses, `fruit of ${filled.fill.id}`, () => fewestThatHold(season, filled));
}

/** The bins that a fill's text names. */
export function binsIn({ fill }: FilledRoom): number {
  return fill.lots.reduce((sum, { bins }) => sum + bins.value, 0);
}

function fewestThatHold(season: ComputedSeason, filled: FilledRoom): number | null {
  const now = binsIn(filled);
  const places = Math.floor(filled.capacity.places?.value ?? 0);
  if (!(now > 0) || places <= now || !holdsWith(season, filled, places)) return null;
  let [low, high] = [Math.floor(now), places];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (holdsWith(season, filled, middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** With the turns that it has at its scrubber now. */
function holdsWith({ plan, fruit, courses }: ComputedSeason, filled: FilledRoom, bins: number): boolean {
  const { id } = filled.fill;
  const turns = courses?.scrubbers.flatMap(({ rooms }) => rooms).find(({ course }) => course.fill === id);
  const served = turns?.served ?? courses?.alone.get(id)?.served;
  if (!served) return false;
  const times = bins / binsIn(filled);
  const lots = filled.fill.lots.map((one) => ({
    ...one,
    bins: figureWith(one.bins, { value: one.bins.value * times }),
  }));
  const fuller = filledRoom(plan, fruit, { ...filled.fill, lots }, filled.capacity);
  const course = roomCourse(fuller, served.untilDay, { ...served.choices, scrubbing: turns?.scrubbing });
  return !!course && oxygenClimbs(course).every(({ until }) => until !== undefined);
}
