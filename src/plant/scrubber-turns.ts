import { type Day, type Week, weekOfDay } from '../plan/dates';
import { countedFigure, type Figure } from '../plan/figure';
import type { Scrubber } from '../plan/model';
import { integrate } from '../room/course/integrate';
import { type CourseChoices, courseRoom } from '../room/course/of-plan';
import { roomCourse } from '../room/course/room-course';
import type { RoomCourse, Scrubbing } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import { bedAir } from './carbon';
import { membraneShares } from './membrane';
import { removalPerLevel, worksAgainst } from './scrubber';

/**
 * How a scrubber that cannot do all its rooms shares its time: `alike` raises all of them by the same factor over
 * their set-points; `most sensitive first` serves the rooms with the lowest limit in full before others; `first
 * sealed first` in the order of sealing.
 */
export type ScrubbingOrder = 'alike' | 'most sensitive first' | 'first sealed first';

/** A fill that a scrubber serves, with the day it opens and what its course is to be reckoned with. */
export interface ServedRoom {
  readonly room: FilledRoom;
  readonly untilDay: Day;
  readonly choices?: CourseChoices;
}

/** One scrubber's work for its rooms in turn. */
export interface ScrubberTurns {
  readonly scrubber: Scrubber;
  readonly order: ScrubbingOrder;
  readonly rooms: readonly RoomTurns[];
  /** Share of its time that holding every room at its set-point would take, by day. Above 1 the levels rise. */
  readonly needed: ReadonlyMap<Day, number>;
  readonly weeks: readonly ScrubberTurnsWeek[];
  readonly peak?: ScrubberTurnsWeek;
}

export interface RoomTurns {
  readonly room: FilledRoom;
  readonly course: RoomCourse;
  /** Highest carbon dioxide, and the limit of the most sensitive variety in the room. */
  readonly highest: Figure<'%'>;
  readonly limit?: number;
  /** Per cent above the limit at the worst; zero or less where it is kept. */
  readonly aboveLimit: number;
  /** Days on which the level is more than a tenth above the set-point. */
  readonly daysAbove: number;
}

export interface ScrubberTurnsWeek {
  readonly week: Week;
  /** Time needed of the time it has, mean of the week. */
  readonly needed: Figure<'%'>;
  /** Hours a day at each room, by fill, mean of the week. */
  readonly hours: readonly { readonly fill: string; readonly hoursADay: number }[];
}

/** Removal so large that a room stays at its set-point: to find out what that takes. */
const WITHOUT_LIMIT = 1e7;

/** Shares that differ by less, of themselves, are one: from day to day a steady room asks for the same. */
const SAME_SHARE = 1e-3;

/** Per cent: outside air has as much, so no scrubber holds less. */
const LOWEST_LEVEL = 0.05;

/** What a room asks of its scrubber on each day from sealing: a share of the time. */
interface Asks {
  readonly served: ServedRoom;
  readonly sealed: Day;
  readonly shares: readonly number[];
  readonly limit: number;
}

/** Undefined where the scrubber's removal is not stated. */
export function scrubberTurns(
  scrubber: Scrubber,
  served: readonly ServedRoom[],
  order: ScrubbingOrder = 'alike',
): ScrubberTurns | undefined {
  const perLevel = removalPerLevel(scrubber)?.value;
  if (perLevel === undefined || !(perLevel > 0)) return undefined;
  const asks = served.flatMap((one) => asksOf(one, perLevel, worksAgainst(scrubber)?.value ?? 0) ?? []);
  const turns = turnsByDay(asks, order);
  const base = {
    kgPerDayPerPercent: perLevel,
    passive: false,
    bedAirM3h: bedAir(scrubber.beds).value,
    membrane: membraneShares(scrubber),
  };
  const rooms = asks.flatMap((one) => roomTurns(one, { ...base, turns: turns.given.get(one) ?? [] }) ?? []);
  const weeks = weeksOf(turns.needed, turns.given, scrubber.hoursADay.value);
  const peak = weeks.reduce<ScrubberTurnsWeek | undefined>(
    (most, week) => (week.needed.value > (most?.needed.value ?? 0) ? week : most),
    undefined,
  );
  return { scrubber, order, rooms, needed: turns.needed, weeks, ...(peak ? { peak } : {}) };
}

/** From a course with a scrubber without limit: what it removes each day over what it would at the set-point. */
function asksOf(served: ServedRoom, perLevel: number, outside: number): Asks | undefined {
  const { room, untilDay, choices } = served;
  const limit = Math.min(...room.varieties.map(({ variety }) => variety.mostCarbonDioxide.value));
  const without = { kgPerDayPerPercent: WITHOUT_LIMIT, passive: false, bedAirM3h: 0, turns: [] };
  const planned = courseRoom(room, untilDay, { ...choices, scrubbing: without });
  const sealed = room.fill.sealed?.value;
  if (!planned || sealed === undefined) return undefined;
  const stages = planned.room.stages.map((stage) => ({
    ...stage,
    carbonDioxide: Math.max(stage.carbonDioxide ?? limit, LOWEST_LEVEL),
  }));
  const days = Math.round(planned.room.untilHours / 24);
  const hours = Array.from({ length: days + 1 }, (_, day) => 24 * day);
  const { points, complete } = integrate({ ...planned.room, stages }, { hours });
  if (!complete) return undefined;
  const shares = points.slice(1).map((point, index) => {
    const removed = point.scrubbedKg - (points[index]?.scrubbedKg ?? 0);
    const level = stages.findLast(({ fromHours }) => fromHours <= 24 * index)?.carbonDioxide ?? limit;
    return removed / (perLevel * (level - outside));
  });
  return { served, sealed, shares, limit };
}

/** Each room's share of the scrubber's time, day by day. */
function turnsByDay(asks: readonly Asks[], order: ScrubbingOrder) {
  const needed = new Map<Day, number>();
  const given = new Map<Asks, { fromHours: number; share: number }[]>(asks.map((one) => [one, []]));
  const first = Math.min(...asks.map(({ sealed }) => sealed));
  const last = Math.max(...asks.map(({ sealed, shares }) => sealed + shares.length - 1));
  const inOrder = [...asks].sort((a, b) => compareBy(order, a, b));
  for (let day = first; day <= last; day++) {
    const here = inOrder.filter(({ sealed, shares }) => day >= sealed && day < sealed + shares.length);
    const wants = here.map(({ sealed, shares }) => shares[day - sealed] ?? 0);
    const total = wants.reduce((sum, one) => sum + one, 0);
    needed.set(day, total);
    shareOut(wants, total, order).forEach((share, index) => {
      const one = here[index];
      const turns = one && given.get(one);
      if (!turns || Math.abs((turns.at(-1)?.share ?? -1) - share) <= SAME_SHARE * share) return;
      turns.push({ fromHours: 24 * (day - one.sealed), share });
    });
  }
  return { needed, given };
}

function compareBy(order: ScrubbingOrder, a: Asks, b: Asks): number {
  const sealedFirst = a.sealed - b.sealed;
  return order === 'most sensitive first' ? a.limit - b.limit || sealedFirst : sealedFirst;
}

/** All of the time is given out, so that a room that has risen comes down again when there is time to spare. */
function shareOut(wants: readonly number[], total: number, order: ScrubbingOrder): number[] {
  if (total <= 0) return wants.map(() => 1 / wants.length);
  if (order === 'alike' || total <= 1) return wants.map((one) => one / total);
  let left = 1;
  return wants.map((one) => {
    const share = Math.min(one, left);
    left -= share;
    return share;
  });
}

function roomTurns({ served, limit }: Asks, scrubbing: Scrubbing): RoomTurns | undefined {
  const course = roomCourse(served.room, served.untilDay, { ...served.choices, scrubbing });
  if (!course) return undefined;
  const setPoint = served.room.regime?.carbonDioxide?.value;
  const daily = course.course.points.filter(({ hours }) => hours % 24 === 0);
  return {
    room: served.room,
    course,
    highest: course.highestCarbonDioxide,
    ...(Number.isFinite(limit) ? { limit } : {}),
    aboveLimit: course.highestCarbonDioxide.value - limit,
    daysAbove:
      setPoint === undefined ? 0 : daily.filter((point) => point.carbonDioxide > 1.1 * setPoint).length,
  };
}

function weeksOf(
  needed: ReadonlyMap<Day, number>,
  given: ReadonlyMap<Asks, readonly { readonly fromHours: number; readonly share: number }[]>,
  hoursADay: number,
): ScrubberTurnsWeek[] {
  const weeks = new Map<Week, { needed: number; hours: Map<string, number> }>();
  const of = (day: Day) => {
    const week = weekOfDay(day);
    const known = weeks.get(week) ?? { needed: 0, hours: new Map<string, number>() };
    weeks.set(week, known);
    return known;
  };
  for (const [day, share] of needed) of(day).needed += share / 7;
  for (const [{ served, sealed, shares }, turns] of given) {
    const { id } = served.room.fill;
    for (let day = 0, turn = 0; day < shares.length; day++) {
      while ((turns[turn + 1]?.fromHours ?? Number.POSITIVE_INFINITY) <= 24 * day) turn++;
      const { hours } = of(sealed + day);
      hours.set(id, (hours.get(id) ?? 0) + ((turns[turn]?.share ?? 0) * hoursADay) / 7);
    }
  }
  return [...weeks]
    .sort(([a], [b]) => a - b)
    .map(([week, all]) => ({
      week,
      needed: countedFigure(
        "time its rooms need, of the scrubber's time",
        '%',
        100 * all.needed,
        'carbon dioxide to be removed each day over what it removes at the set-points, mean of the week',
      ),
      hours: [...all.hours].map(([fill, one]) => ({ fill, hoursADay: one })),
    }));
}
