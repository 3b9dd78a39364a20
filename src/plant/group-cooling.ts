import { type Day, formatDay } from '../plan/dates';
import { countedFigure, type Figure } from '../plan/figure';
import type { Plan, RefrigerationGroup } from '../plan/model';
import { type CoolingCourse, coolingTogether } from '../room/cooling-course';
import type { FilledRoom } from '../room/types';

/** Cooling of a group's rooms in their filling, all of them drawing on the one plant. */
export interface GroupCooling {
  readonly group: RefrigerationGroup;
  /** By fill, with what the group leaves each room. */
  readonly courses: ReadonlyMap<string, CoolingCourse>;
  /** What rooms that are being filled or cooled want and get on a day. */
  readonly days: readonly {
    readonly day: Day;
    readonly wanted: Figure<'kW'>;
    readonly taken: Figure<'kW'>;
  }[];
  /** Fills whose fruit is cold later than with the group's capacity to themselves, and by how many days. */
  readonly later: readonly { readonly fill: string; readonly days: number }[];
}

/**
 * The rooms of a group hour by hour together. Each is cooled within its own cooler; when all of them want more than the
 * group has, each gets the same part of what it wants. Undefined where the group's capacity is not stated.
 */
export function groupCooling(
  plan: Plan,
  group: RefrigerationGroup,
  rooms: readonly FilledRoom[],
): GroupCooling | undefined {
  if (!group.capacity) return undefined;
  const courses = coolingTogether(plan, rooms, group.capacity.value);
  const alone = coolingTogether(plan, rooms, Number.POSITIVE_INFINITY);
  const later = [...courses].flatMap(([fill, { allCold }]) => {
    const days = (allCold?.value ?? Number.POSITIVE_INFINITY) - (alone.get(fill)?.allCold?.value ?? 0);
    return days > 0.01 ? [{ fill, days }] : [];
  });
  return { group, courses, days: daysOf(courses), later };
}

function daysOf(courses: ReadonlyMap<string, CoolingCourse>): GroupCooling['days'] {
  const days = new Map<Day, { wanted: number; taken: number }>();
  for (const course of courses.values()) {
    for (const { day, wantedKw, takenKw } of course.days) {
      const sum = days.get(day) ?? { wanted: 0, taken: 0 };
      days.set(day, { wanted: sum.wanted + wantedKw, taken: sum.taken + takenKw });
    }
  }
  const figure = (what: string, day: Day, value: number) =>
    countedFigure(`${what} on ${formatDay(day)}`, 'kW', value, 'mean of the day over the rooms being cooled');
  return [...days]
    .sort(([a], [b]) => a - b)
    .map(([day, { wanted, taken }]) => ({
      day,
      wanted: figure('cooling the rooms want', day, wanted),
      taken: figure('cooling the rooms get', day, taken),
    }));
}
