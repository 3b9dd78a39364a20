import { firstDayOfWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { CourseChoices } from '../room/course/of-plan';
import { roomCourse } from '../room/course/room-course';
import type { RoomCourse } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import { type NitrogenQueue, nitrogenQueue } from './nitrogen-queue';
import { type ScrubberTurns, type ScrubbingOrder, type ServedRoom, scrubberTurns } from './scrubber-turns';
import { type Openings, openingWeek, seasonWeeks } from './weeks';

/** The gas course of every sealed room, with the equipment they share. */
export interface SeasonCourses {
  /** By fill identifier. */
  readonly courses: ReadonlyMap<string, RoomCourse>;
  readonly queues: readonly NitrogenQueue[];
  readonly scrubbers: readonly ScrubberTurns[];
  /** What each scrubber serves, for `scrubberRemedies`; by scrubber identifier. */
  readonly served: ReadonlyMap<string, readonly ServedRoom[]>;
}

export interface SeasonCourseOptions {
  readonly opens?: Openings | undefined;
  readonly order?: ScrubbingOrder;
  readonly choices?: CourseChoices;
}

/**
 * All rooms' courses from sealing to the week each opens (by the schedule, else as pinned, else the season's end):
 * each waits for its nitrogen in the queue, and shares its scrubber with the others. Undefined where the plan does
 * not say when the season starts and ends.
 */
export function seasonCourses(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  { opens, order = 'alike', choices = {} }: SeasonCourseOptions = {},
): SeasonCourses | undefined {
  const season = seasonWeeks(plan);
  if (!season) return undefined;
  const rooms = [...filled.values()];
  const queues = [...plan.nitrogenSources.values()].map((source) =>
    nitrogenQueue(
      source,
      rooms.filter(({ room }) => room.nitrogen?.value === source.id),
    ),
  );
  const waits = new Map(
    queues.flatMap(({ turns }) =>
      turns.map(({ room, waits: hours }) => [room.fill.id, hours.value] as const),
    ),
  );
  const serve = (room: FilledRoom): ServedRoom => ({
    room,
    untilDay: firstDayOfWeek(openingWeek(room, opens) ?? season.lastWeek + 1),
    choices: { ...choices, feedStartsAtHours: waits.get(room.fill.id) ?? 0 },
  });
  const served = new Map(
    [...plan.scrubbers.keys()].map((id) => [
      id,
      rooms
        .filter(({ room, fill, regime }) => room.scrubber?.value === id && fill.sealed && regime?.oxygen)
        .map(serve),
    ]),
  );
  const scrubbers = [...plan.scrubbers.values()].flatMap(
    (scrubber) => scrubberTurns(scrubber, served.get(scrubber.id) ?? [], order) ?? [],
  );
  const courses = new Map(
    scrubbers.flatMap((one) => one.rooms.map(({ course }) => [course.fill, course] as const)),
  );
  for (const room of rooms) {
    if (courses.has(room.fill.id)) continue;
    const { untilDay, choices: own } = serve(room);
    const course = roomCourse(room, untilDay, own);
    if (course) courses.set(room.fill.id, course);
  }
  return { courses, queues, scrubbers, served };
}
