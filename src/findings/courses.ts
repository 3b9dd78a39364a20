import type { Plan } from '../plan/model';
import { finish, type Steps } from '../plan/steps';
import { coolingInGroups } from '../plant/group-cooling';
import { type SeasonCourses, seasonCoursesSteps } from '../plant/season-courses';
import type { Openings } from '../plant/weeks';
import type { CoolingCourse } from '../room/cooling-course';
import type { FilledRoom } from '../room/types';

/** Every room's cooling and gas course. It takes some half a second for fifty rooms, so it is found when asked for. */
export interface FoundCourses extends SeasonCourses {
  /** Temperature of each day's fruit, with what its refrigeration group leaves the room; by fill identifier. */
  readonly cooling: ReadonlyMap<string, CoolingCourse>;
  /** What all of them follow from. */
  readonly madeFrom: CourseInputs;
  /** What was reckoned many times over for them, remedies that were tried. */
  readonly tried: Tried;
}

interface CourseInputs {
  /** Season, plant and openings as text. */
  readonly plant: string;
  readonly filled: ReadonlyMap<string, FilledRoom>;
}

/** By key. Where `putOff` is there, what is not known yet waits in it instead of being reckoned at once. */
interface Tried {
  readonly known: Map<string, unknown>;
  putOff: PutOff | undefined;
}

/** What has still to be reckoned, by key. */
export type PutOff = Map<string, () => Steps<unknown>>;

export interface FindOptions {
  /** Courses found before: returned where nothing they follow from has changed, and else kept room by room. */
  readonly atHand?: FoundCourses | undefined;
  /** Cooling of the rooms' groups where it has been counted already. */
  readonly cooling?: ReadonlyMap<string, CoolingCourse> | undefined;
}

/** All courses; those at hand where nothing they follow from has changed. Undefined without the season's dates. */
export function findCourses(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  opens: Openings | undefined,
  atHand?: FoundCourses | undefined,
): FoundCourses | undefined {
  return finish(findCoursesSteps(plan, filled, opens, { atHand }));
}

/** The same in steps, a room each. */
export function* findCoursesSteps(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  opens: Openings | undefined,
  { atHand, cooling }: FindOptions = {},
): Steps<FoundCourses | undefined> {
  const plant = plantInputs(plan, opens);
  if (atHand?.madeFrom.plant === plant && (yield* sameRooms(atHand.madeFrom.filled, filled))) return atHand;
  const courses = yield* seasonCoursesSteps(plan, filled, { opens, before: atHand });
  if (!courses) return undefined;
  return {
    ...courses,
    cooling: cooling ?? coolingInGroups(plan, filled),
    madeFrom: { plant, filled },
    tried: { known: new Map(), putOff: undefined },
  };
}

/** What courses follow from besides the rooms, as text without places and names, so that moved lines change nothing. */
function plantInputs(plan: Plan, opens: Openings | undefined): string {
  const { season, scrubbers, nitrogenSources, refrigerationGroups, binTypes, packing } = plan;
  const plant = [[...scrubbers], [...nitrogenSources], [...refrigerationGroups], packing?.daysToEmpty];
  return JSON.stringify([season, [...binTypes], plant, [...(opens ?? [])]], withoutPlaces);
}

/** Whether all rooms are the same. Most are the very same; the others are compared as text. */
function* sameRooms(a: ReadonlyMap<string, FilledRoom>, b: ReadonlyMap<string, FilledRoom>): Steps<boolean> {
  if (a.size !== b.size) return false;
  const others = a.values();
  for (const room of b.values()) {
    const other = others.next().value;
    if (other === room) continue;
    yield;
    if (!other || roomInputs(other) !== roomInputs(room)) return false;
  }
  return true;
}

function roomInputs(room: FilledRoom): string {
  const inputs = { ...room, lots: undefined, capacity: { ...room.capacity, room: undefined } };
  return JSON.stringify(inputs, withoutPlaces);
}

const LEFT_OUT = new Set(['at', 'places', 'origin', 'name', 'source']);

function withoutPlaces(key: string, value: unknown): unknown {
  return LEFT_OUT.has(key) ? undefined : value;
}

/**
 * What has to be reckoned many times over (remedies that are tried), made once for the courses at hand and kept with
 * them, so that it costs nothing while the plan is typed in. Undefined without courses, and where it is put off.
 */
export function onceFor<T>(courses: FoundCourses | undefined, key: string, make: () => T): T | undefined {
  // biome-ignore lint/correctness/useYield: all of it is one step
  return onceInSteps(courses, key, function* () {
    return make();
  });
}

/** The same for what is made in steps. */
export function onceInSteps<T>(
  courses: FoundCourses | undefined,
  key: string,
  make: () => Steps<T>,
): T | undefined {
  if (!courses) return undefined;
  const { known, putOff } = courses.tried;
  if (!known.has(key)) {
    if (putOff) {
      putOff.set(key, make);
      return undefined;
    }
    known.set(key, finish(make()));
  }
  return known.get(key) as T;
}

/** Does the work without waiting for what is not known yet: that is put off for `triedSteps`. */
export function puttingOff<T>(courses: FoundCourses | undefined, into: PutOff, work: () => T): T {
  if (!courses) return work();
  courses.tried.putOff = into;
  try {
    return work();
  } finally {
    courses.tried.putOff = undefined;
  }
}

/** The courses with what was put off: another object, so that whoever looked at them looks again. */
export function* triedSteps(courses: FoundCourses, putOff: PutOff): Steps<FoundCourses> {
  const { known } = courses.tried;
  for (const [key, make] of putOff) {
    yield;
    if (!known.has(key)) known.set(key, yield* make());
  }
  return { ...courses, tried: { known, putOff: undefined } };
}
