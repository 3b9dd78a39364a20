import type { Day } from '../plan/dates';
import type { Figure } from '../plan/figure';
import { dayOf } from '../room/course/room-course';
import type { FilledRoom } from '../room/types';
import type { ComputedSeason } from './types';

/** Points of carbon dioxide by which a level may be above a limit that it is held at. */
export const KEPT = 0.05;

/** Carbon dioxide that nothing takes away, and that comes above what a room's fruit bears. */
export interface AboveLimit {
  /** The least that any of its lots bears. */
  readonly limit: Figure<'%'>;
  readonly from: Day;
  readonly highest: Figure<'%'>;
}

/** By the course of a sealed room that has no scrubber; undefined without a course, and where it stays within the limit. */
export function aboveWithoutScrubber(
  { courses }: ComputedSeason,
  { fill, room, lots }: FilledRoom,
): AboveLimit | undefined {
  const course = room.scrubber ? undefined : courses?.courses.get(fill.id);
  const from = course && dayOf(course, 'carbon-dioxide-above-limit');
  if (!course || from === undefined) return undefined;
  const limit = lots
    .map(({ variety }) => variety.mostCarbonDioxide)
    .reduce<Figure<'%'> | undefined>(
      (least, one) => (least && least.value <= one.value ? least : one),
      undefined,
    );
  const highest = course.highestCarbonDioxide;
  if (!limit || highest.value <= limit.value + KEPT) return undefined;
  return { limit, from, highest };
}
