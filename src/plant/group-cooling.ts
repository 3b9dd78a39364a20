import { type Day, formatDay } from '../plan/dates';
import { countedFigure, type Figure } from '../plan/figure';
import { type Keep, keepNothing } from '../plan/keep';
import type { Plan, RefrigerationGroup } from '../plan/model';
import { type CoolingCourse, coolingCourse, coolingNumbers, coolingTogether } from '../room/cooling-course';
import type { FilledRoom } from '../room/types';

/** Cooling of a group's rooms in their filling, all of them drawing on the one plant. */
export interface GroupCooling {
  readonly group: RefrigerationGroup;
  /** By fill, with what the group leaves each room. */
  readonly courses: ReadonlyMap<string, CoolingCourse>;
  /** What rooms that are being filled or cooled ask of the group, within their own coolers, and get on a day. */
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

const counted = new WeakMap<
  ReadonlyMap<string, FilledRoom>,
  { readonly plan: Plan; readonly courses: ReadonlyMap<string, CoolingCourse> }
>();

/**
 * Cooling of all rooms of a season, by fill: those of a group hour by hour together, the others each alone. What the
 * plant's weeks, the calendar and the rooms' own courses all read, so it is counted once for the rooms at hand.
 */
export function coolingInGroups(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  keep: Keep = keepNothing,
): ReadonlyMap<string, CoolingCourse> {
  const known = counted.get(filled);
  if (known?.plan === plan) return known.courses;
  const courses = countedInGroups(plan, filled, keep);
  counted.set(filled, { plan, courses });
  return courses;
}

function countedInGroups(
  plan: Plan,
  filled: ReadonlyMap<string, FilledRoom>,
  keep: Keep,
): Map<string, CoolingCourse> {
  const courses = new Map<string, CoolingCourse>();
  const all = [...filled.values()];
  const grouped = (room: FilledRoom) =>
    plan.refrigerationGroups.get(room.room.refrigerationGroup?.value ?? '');
  for (const group of plan.refrigerationGroups.values()) {
    const rooms = all.filter((room) => grouped(room) === group);
    const capacity = group.capacity?.value ?? Number.POSITIVE_INFINITY;
    const make = () => coolingTogether(plan, rooms, capacity);
    const together = keep(`cooling/${group.id}`, [capacity, ...marchInputs(plan, rooms, keep)], make);
    for (const [fill, course] of together) courses.set(fill, course);
  }
  for (const room of all) {
    const alone = () => coolingCourse(plan, room);
    const course = grouped(room) ? undefined : keep(`cooling-of/${room.fill.id}`, [room], alone);
    if (course) courses.set(room.fill.id, course);
  }
  return courses;
}

/** What the rooms' march follows from. It takes longest of all, and most edits to a room leave its numbers alone. */
function marchInputs(plan: Plan, rooms: readonly FilledRoom[], keep: Keep): unknown[] {
  if (keep === keepNothing) return [];
  return rooms.flatMap((room) => [
    room.fill.id,
    keep(`numbers/${room.fill.id}`, [room], () => coolingNumbers(plan, room)),
    ...room.varieties.map(({ variety }) => variety),
  ]);
}

function daysOf(courses: ReadonlyMap<string, CoolingCourse>): GroupCooling['days'] {
  const days = new Map<Day, { wanted: number; taken: number }>();
  for (const course of courses.values()) {
    for (const { day, askedKw, takenKw } of course.days) {
      const sum = days.get(day) ?? { wanted: 0, taken: 0 };
      days.set(day, { wanted: sum.wanted + askedKw, taken: sum.taken + takenKw });
    }
  }
  const figure = (what: string, day: Day, value: number) =>
    countedFigure(`${what} on ${formatDay(day)}`, 'kW', value, 'mean of the day over the rooms being cooled');
  return [...days]
    .sort(([a], [b]) => a - b)
    .map(([day, { wanted, taken }]) => ({
      day,
      wanted: figure('cooling the rooms ask for', day, wanted),
      taken: figure('cooling the rooms get', day, taken),
    }));
}
