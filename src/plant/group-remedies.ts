import type { FruitData } from '../fruit/types';
import { type Day, firstDayOfWeek } from '../plan/dates';
import type { Fill, Plan, RefrigerationGroup } from '../plan/model';
import { coolingTogether } from '../room/cooling-course';
import { filledRoom } from '../room/filled-room';
import type { FilledRoom } from '../room/types';
import { kilowattsOn, type RoomLoad, roomLoads } from './refrigeration-load';
import { leastWhole } from './try';
import { type Openings, seasonWeeks } from './weeks';

/** A refrigeration group with its rooms and when these open. */
export interface GroupAtWork {
  readonly plan: Plan;
  readonly fruit: FruitData;
  readonly group: RefrigerationGroup;
  readonly rooms: readonly FilledRoom[];
  readonly opens: Openings | undefined;
}

/** The least changes of each kind after which no day asks for more than the group gives; each was tried. */
export interface GroupRemedies {
  /** The first day on which its rooms ask for more than it gives. */
  readonly from?: Day;
  /** Capacity that would do, whole kilowatts. */
  readonly capacityKw?: number;
  /** One room filled and sealed so many days later, the fewest days of those tried. */
  readonly later?: { readonly fill: string; readonly days: number };
  /** All rooms filled in the days of too much, each taking so many days more for it. */
  readonly slower?: { readonly fills: readonly string[]; readonly days: number };
}

/** Days by which a filling is moved or drawn out at most: past two weeks the fruit is better sold than kept waiting. */
const MOST_DAYS = 14;
/** Rooms ask for more in the worst hour than in the mean of its day, yet less than so many times as much. */
const HOURS_ABOVE_DAY = 2;
/** Rooms tried later one by one, those that ask most on the worst day first. */
const MOST_ROOMS_TRIED = 3;

/** What would bring a group's load within its capacity, hour by hour again for each change. */
export function groupRemedies(at: GroupAtWork): GroupRemedies {
  const capacity = at.group.capacity?.value;
  if (capacity === undefined) return {};
  const over = daysOver(at, at.rooms, capacity);
  const [first] = over;
  if (!first) return {};
  const enough = (kilowatts: number) => daysOver(at, at.rooms, kilowatts).length === 0;
  const days = new Set(over.map(({ day }) => day));
  const worst = over.reduce((most, one) => (one.kilowatts > most.kilowatts ? one : most));
  const filling = at.rooms.filter(({ intake }) => intake.some(({ day }) => days.has(day)));
  const ask = (room: FilledRoom) => worst.byFill.get(room.fill.id) ?? 0;
  return {
    from: first.day,
    capacityKw: leastWhole(Math.floor(capacity), Math.ceil(HOURS_ABOVE_DAY * peakUnbound(at)), enough),
    later: fewestDaysLater(
      at,
      [...filling].sort((a, b) => ask(b) - ask(a)),
    ),
    slower: fewestDaysMore(at, filling),
  };
}

function fewestDaysLater(at: GroupAtWork, rooms: readonly FilledRoom[]): GroupRemedies['later'] {
  const tried = rooms.slice(0, MOST_ROOMS_TRIED).flatMap(({ fill }) => {
    const days = leastWhole(0, MOST_DAYS, (later) =>
      keepsUp(at, new Set([fill.id]), (one) => moved(one, later, later)),
    );
    return days === undefined ? [] : [{ fill: fill.id, days }];
  });
  return tried.sort((a, b) => a.days - b.days)[0];
}

function fewestDaysMore(at: GroupAtWork, rooms: readonly FilledRoom[]): GroupRemedies['slower'] {
  const fills = rooms.map(({ fill }) => fill.id);
  const changed = new Set(fills);
  const days = leastWhole(0, MOST_DAYS, (more) => keepsUp(at, changed, (fill) => moved(fill, 0, more)));
  return days === undefined ? undefined : { fills, days };
}

/** A fill with its first bin so many days later, and its last bin and seal so many. */
function moved(fill: Fill, first: number, last: number): Fill {
  const later = <D extends { readonly value: Day }>(date: D, days: number): D => ({
    ...date,
    value: date.value + days,
  });
  return {
    ...fill,
    firstBin: fill.firstBin && later(fill.firstBin, first),
    lastBin: fill.lastBin && later(fill.lastBin, last),
    sealed: fill.sealed && later(fill.sealed, last),
  };
}

function keepsUp(at: GroupAtWork, changed: ReadonlySet<string>, change: (fill: Fill) => Fill): boolean {
  const capacity = at.group.capacity?.value ?? Number.POSITIVE_INFINITY;
  const rooms = at.rooms.map((room) =>
    changed.has(room.fill.id) ? filledRoom(at.plan, at.fruit, change(room.fill), room.capacity) : room,
  );
  return daysOver(at, rooms, capacity).length === 0;
}

/** What the rooms ask on their worst day, mean of the day, where the group gives all they ask. */
function peakUnbound(at: GroupAtWork): number {
  const days = askedByDay(at, at.rooms, Number.POSITIVE_INFINITY);
  return days.reduce((most, { kilowatts }) => Math.max(most, kilowatts), 0);
}

interface DayAsked {
  readonly day: Day;
  readonly kilowatts: number;
  readonly byFill: ReadonlyMap<string, number>;
}

/** Days of the season on which rooms ask for more than so many kilowatts, all drawing on them hour by hour. */
function daysOver(at: GroupAtWork, rooms: readonly FilledRoom[], capacityKw: number): DayAsked[] {
  return askedByDay(at, rooms, capacityKw).filter(({ kilowatts }) => kilowatts > capacityKw);
}

/** What rooms ask on each day of the season, all drawing hour by hour on so many kilowatts. */
function askedByDay(at: GroupAtWork, rooms: readonly FilledRoom[], capacityKw: number): DayAsked[] {
  const season = seasonWeeks(at.plan);
  if (!season) return [];
  const [first, end] = [firstDayOfWeek(season.firstWeek), firstDayOfWeek(season.lastWeek + 1)];
  const filled = new Map(rooms.map((room) => [room.fill.id, room]));
  const courses = coolingTogether(at.plan, rooms, capacityKw);
  const loads = roomLoads(at.plan, filled, at.opens, end - 1, courses);
  return Array.from({ length: end - first }, (_, index) => {
    const day = first + index;
    const byFill = askedOn(loads, day);
    return { day, kilowatts: [...byFill.values()].reduce((sum, one) => sum + one, 0), byFill };
  });
}

function askedOn(loads: readonly RoomLoad[], day: Day): Map<string, number> {
  return new Map(
    loads.flatMap((load) => {
      const asked = kilowattsOn(load, day)?.asked;
      return asked === undefined ? [] : [[load.room.fill.id, asked] as const];
    }),
  );
}
