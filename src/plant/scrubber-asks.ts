import type { Day } from '../plan/dates';
import type { Scrubber } from '../plan/model';
import { integrate } from '../room/course/integrate';
import { type CourseChoices, courseRoom } from '../room/course/of-plan';
import type { Scrubbing } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import { bedAir } from './carbon';
import { membraneShares } from './membrane';
import { isOut } from './out-of-use';
import { removalPerLevel, worksAgainst } from './scrubber';

/** What rooms ask of a scrubber they share, day by day, and how its time is given out to them. */

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

/** Removal so large that a room stays at its set-point: to find out what that takes. */
const WITHOUT_LIMIT = 1e7;

/** Shares that differ by less, of themselves, are one: from day to day a steady room asks for the same. */
const SAME_SHARE = 1e-3;

/** Per cent: outside air has as much, so no scrubber holds less. */
const LOWEST_LEVEL = 0.05;

/** What a room asks of its scrubber on each day from sealing, and the level at which it is to be removed. */
export interface Asks {
  readonly served: ServedRoom;
  readonly sealed: Day;
  /** Kilograms of carbon dioxide. */
  readonly removed: readonly number[];
  /** Per cent. */
  readonly levels: readonly number[];
  /** What the most sensitive variety in the room bears, per cent. */
  readonly limit: number;
}

/** What a scrubber removes when it serves one room all its time, and the level outside that it works against. */
export interface ScrubbingPower {
  readonly scrubbing: Omit<Scrubbing, 'turns'>;
  readonly outside: number;
  /** Days on which it does not run. */
  readonly outOfUse?: Scrubber['outOfUse'];
}

/** Share of its time from an hour after a room's sealing on. */
export interface Turn {
  readonly fromHours: number;
  readonly share: number;
}

export interface DailyTurns {
  /** Share of its time that holding every room at its set-point would take, by day. */
  readonly needed: ReadonlyMap<Day, number>;
  readonly given: ReadonlyMap<Asks, readonly Turn[]>;
}

/** Undefined where the removal is not stated. */
export function scrubbingPower(scrubber: Scrubber): ScrubbingPower | undefined {
  const perLevel = removalPerLevel(scrubber)?.value;
  if (perLevel === undefined || !(perLevel > 0)) return undefined;
  return {
    scrubbing: {
      kgPerDayPerPercent: perLevel,
      passive: false,
      bedAirM3h: bedAir(scrubber.beds).value,
      membrane: membraneShares(scrubber),
    },
    outside: worksAgainst(scrubber)?.value ?? 0,
    outOfUse: scrubber.outOfUse,
  };
}

const known = new WeakMap<ServedRoom, Asks | 'none'>();

/** What a room asks for, worked out once: it is the same whatever scrubber serves it. Undefined without a course. */
export function asksOf(served: ServedRoom): Asks | undefined {
  const at = known.get(served) ?? askedOf(served) ?? 'none';
  known.set(served, at);
  return at === 'none' ? undefined : at;
}

/** From a course with a scrubber without limit: what it removes each day. */
function askedOf(served: ServedRoom): Asks | undefined {
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
  const removed = points
    .slice(1)
    .map(({ scrubbedKg }, index) => scrubbedKg - (points[index]?.scrubbedKg ?? 0));
  const levels = removed.map(
    (_, day) => stages.findLast(({ fromHours }) => fromHours <= 24 * day)?.carbonDioxide ?? limit,
  );
  return { served, sealed, removed, levels, limit };
}

/** Share of a scrubber's time that holding a room at its set-point takes on a day. */
export function shareNeeded(
  { sealed, removed, levels }: Asks,
  { scrubbing: { kgPerDayPerPercent: perLevel }, outside }: ScrubbingPower,
  day: Day,
): number {
  return (removed[day - sealed] ?? 0) / (perLevel * ((levels[day - sealed] ?? 0) - outside));
}

/** Each room's share of the scrubber's time, day by day. */
export function turnsByDay(asks: readonly Asks[], power: ScrubbingPower, order: ScrubbingOrder): DailyTurns {
  const needed = new Map<Day, number>();
  const given = new Map<Asks, Turn[]>(asks.map((one) => [one, []]));
  const first = Math.min(...asks.map(({ sealed }) => sealed));
  const last = Math.max(...asks.map(({ sealed, removed }) => sealed + removed.length - 1));
  const inOrder = [...asks].sort((a, b) => compareBy(order, a, b));
  for (let day = first; day <= last; day++) {
    const here = inOrder.filter(({ sealed, removed }) => day >= sealed && day < sealed + removed.length);
    const wants = here.map((one) => shareNeeded(one, power, day));
    const total = wants.reduce((sum, one) => sum + one, 0);
    needed.set(day, total);
    const shares = isOut(power.outOfUse, day) ? wants.map(() => 0) : shareOut(wants, total, order);
    shares.forEach((share, index) => {
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
