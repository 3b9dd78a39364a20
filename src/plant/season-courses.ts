import { firstDayOfWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import { finish, type Steps } from '../plan/steps';
import type { CourseChoices } from '../room/course/of-plan';
import { roomCourse } from '../room/course/room-course';
import type { RoomCourse } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import { type NitrogenQueue, nitrogenQueue } from './nitrogen-queue';
import {
  type ScrubberTurns,
  type ScrubbingOrder,
  type ServedRoom,
  scrubberTurnsSteps,
} from './scrubber-turns';
import { type Openings, openingWeek, seasonWeeks } from './weeks';

/** The gas course of every sealed room, with the equipment they share. */
export interface SeasonCourses {
  /** By fill identifier. */
  readonly courses: ReadonlyMap<string, RoomCourse>;
  readonly queues: readonly NitrogenQueue[];
  readonly scrubbers: readonly ScrubberTurns[];
  /** What each scrubber serves, for `scrubberRemedies`; by scrubber identifier. */
  readonly served: ReadonlyMap<string, readonly ServedRoom[]>;
  /** Rooms that share no scrubber, by fill identifier. */
  readonly alone: ReadonlyMap<string, AloneRoom>;
}

interface AloneRoom {
  readonly served: ServedRoom;
  readonly course: RoomCourse | undefined;
}

export interface SeasonCourseOptions {
  readonly opens?: Openings | undefined;
  readonly order?: ScrubbingOrder;
  readonly choices?: CourseChoices;
  /** Courses found before, with the same choices: rooms for which nothing differs keep theirs. */
  readonly before?: SeasonCourses | undefined;
}

/**
 * All rooms' courses from sealing to the week each opens (by the schedule, else as pinned, else the season's end):
 * each waits for its nitrogen in the queue, and shares its scrubber with the others. Undefined where the plan does
 * not say when the season starts and ends.
 */
export function seasonCourses(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  options: SeasonCourseOptions = {},
): SeasonCourses | undefined {
  return finish(seasonCoursesSteps(plan, filled, options));
}

/** The same in steps, a room each. */
export function* seasonCoursesSteps(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  { opens, order = 'alike', choices = {}, before }: SeasonCourseOptions = {},
): Steps<SeasonCourses | undefined> {
  const season = seasonWeeks(plan);
  if (!season) return undefined;
  const rooms = [...filled.values()];
  const queues: NitrogenQueue[] = [];
  for (const source of plan.nitrogenSources.values()) {
    yield;
    const fed = rooms.filter(({ room }) => room.nitrogen?.value === source.id);
    queues.push(nitrogenQueue(source, fed));
  }
  const waits = new Map(
    queues.flatMap(({ turns }) =>
      turns.map(({ room, waits: hours }) => [room.fill.id, hours.value] as const),
    ),
  );
  const known = servedBefore(before);
  const serve = (room: FilledRoom): ServedRoom => {
    const untilDay = firstDayOfWeek(openingWeek(room, opens) ?? season.lastWeek + 1);
    const feedStartsAtHours = waits.get(room.fill.id) ?? 0;
    const last = known.get(room);
    return last?.untilDay === untilDay && last.choices?.feedStartsAtHours === feedStartsAtHours
      ? last
      : { room, untilDay, choices: { ...choices, feedStartsAtHours } };
  };
  const served = new Map(
    [...plan.scrubbers.keys()].map((id) => [
      id,
      rooms
        .filter(({ room, fill, regime }) => room.scrubber?.value === id && fill.sealed && regime?.oxygen)
        .map(serve),
    ]),
  );
  const scrubbers: ScrubberTurns[] = [];
  for (const scrubber of plan.scrubbers.values()) {
    const last = before?.scrubbers.find((one) => one.scrubber === scrubber);
    const turns = yield* scrubberTurnsSteps(scrubber, served.get(scrubber.id) ?? [], order, last);
    if (turns) scrubbers.push(turns);
  }
  const courses = new Map(
    scrubbers.flatMap((one) => one.rooms.map(({ course }) => [course.fill, course] as const)),
  );
  const alone = new Map<string, AloneRoom>();
  for (const room of rooms) {
    if (courses.has(room.fill.id)) continue;
    yield;
    const one = serve(room);
    const last = before?.alone.get(room.fill.id);
    const course = last?.served === one ? last.course : roomCourse(room, one.untilDay, one.choices);
    alone.set(room.fill.id, { served: one, course });
    if (course) courses.set(room.fill.id, course);
  }
  return { courses, queues, scrubbers, served, alone };
}

/** What each room was served with: what is the very same needs not be reckoned again. */
function servedBefore(before: SeasonCourses | undefined): Map<FilledRoom, ServedRoom> {
  if (!before) return new Map();
  const shared = [...before.served.values()].flat();
  const alone = [...before.alone.values()].map(({ served }) => served);
  return new Map([...shared, ...alone].map((one) => [one.room, one]));
}
