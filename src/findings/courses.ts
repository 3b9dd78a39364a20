import type { Plan } from '../plan/model';
import { coolingInGroups } from '../plant/group-cooling';
import { type SeasonCourses, seasonCourses } from '../plant/season-courses';
import type { Openings } from '../plant/weeks';
import type { CoolingCourse } from '../room/cooling-course';
import type { FilledRoom } from '../room/types';

/** Every room's cooling and gas course. It takes some half a second for fifty rooms, so it is found when asked for. */
export interface FoundCourses extends SeasonCourses {
  /** Temperature of each day's fruit, with what its refrigeration group leaves the room; by fill identifier. */
  readonly cooling: ReadonlyMap<string, CoolingCourse>;
  /** Equal where nothing that the courses follow from has changed. */
  readonly madeFrom: string;
}

/** All courses; those at hand where nothing they follow from has changed. Undefined without the season's dates. */
export function findCourses(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  opens: Openings | undefined,
  atHand?: FoundCourses | undefined,
): FoundCourses | undefined {
  const madeFrom = inputsOf(plan, filled, opens);
  if (atHand?.madeFrom === madeFrom) return atHand;
  const courses = seasonCourses(plan, filled, { opens });
  if (!courses) return undefined;
  return { ...courses, cooling: coolingInGroups(plan, filled), madeFrom };
}

/** Everything that courses follow from as text, without places and names, so that moved lines change nothing. */
function inputsOf(plan: Plan, filled: ReadonlyMap<string, FilledRoom>, opens: Openings | undefined): string {
  const rooms = [...filled.values()].map((room) => ({
    ...room,
    lots: undefined,
    capacity: { ...room.capacity, room: undefined },
  }));
  const { season, scrubbers, nitrogenSources, refrigerationGroups, binTypes, packing } = plan;
  const plant = [[...scrubbers], [...nitrogenSources], [...refrigerationGroups], packing?.daysToEmpty];
  const inputs = [season, [...binTypes], plant, [...(opens ?? [])], rooms];
  return JSON.stringify(inputs, withoutPlaces);
}

const LEFT_OUT = new Set(['at', 'places', 'origin', 'name', 'source']);

function withoutPlaces(key: string, value: unknown): unknown {
  return LEFT_OUT.has(key) ? undefined : value;
}

const tried = new WeakMap<FoundCourses, Map<string, unknown>>();

/**
 * What has to be reckoned many times over (remedies that are tried), made once for the courses at hand and kept with
 * them, so that it costs nothing while the plan is typed in. Undefined without courses.
 */
export function onceFor<T>(courses: FoundCourses | undefined, key: string, make: () => T): T | undefined {
  if (!courses) return undefined;
  const known = tried.get(courses) ?? new Map<string, unknown>();
  tried.set(courses, known);
  if (!known.has(key)) known.set(key, make());
  return known.get(key) as T;
}
