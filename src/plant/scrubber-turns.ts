import { type Day, type Week, weekOfDay } from '../plan/dates';
import { countedFigure, type Figure } from '../plan/figure';
import type { Scrubber } from '../plan/model';
import { finish, type Steps } from '../plan/steps';
import { roomCourse } from '../room/course/room-course';
import type { RoomCourse, Scrubbing } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import {
  type Asks,
  asksOf,
  type ScrubbingOrder,
  type ServedRoom,
  scrubbingPower,
  turnsByDay,
} from './scrubber-asks';

export type { ScrubbingOrder, ServedRoom } from './scrubber-asks';

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
  readonly served: ServedRoom;
  /** What its course was reckoned with. */
  readonly scrubbing: Scrubbing;
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

/** Undefined where the scrubber's removal is not stated. */
export function scrubberTurns(
  scrubber: Scrubber,
  served: readonly ServedRoom[],
  order: ScrubbingOrder = 'alike',
): ScrubberTurns | undefined {
  return finish(scrubberTurnsSteps(scrubber, served, order));
}

/** The same in steps, a room each. A room that is served as it was `before` keeps its course. */
export function* scrubberTurnsSteps(
  scrubber: Scrubber,
  served: readonly ServedRoom[],
  order: ScrubbingOrder = 'alike',
  before?: ScrubberTurns | undefined,
): Steps<ScrubberTurns | undefined> {
  const power = scrubbingPower(scrubber);
  if (!power) return undefined;
  const asks: Asks[] = [];
  for (const one of served) {
    yield;
    const asked = asksOf(one);
    if (asked) asks.push(asked);
  }
  yield;
  const turns = turnsByDay(asks, power, order);
  const known = new Map(before?.rooms.map((room) => [room.served, room]));
  const rooms: RoomTurns[] = [];
  for (const one of asks) {
    yield;
    const scrubbing = { ...power.scrubbing, turns: turns.given.get(one) ?? [] };
    const last = known.get(one.served);
    const same = last && JSON.stringify(last.scrubbing) === JSON.stringify(scrubbing);
    const room = same ? last : roomTurns(one, scrubbing);
    if (room) rooms.push(room);
  }
  yield;
  const weeks = weeksOf(turns.needed, turns.given, scrubber.hoursADay.value);
  const peak = weeks.reduce<ScrubberTurnsWeek | undefined>(
    (most, week) => (week.needed.value > (most?.needed.value ?? 0) ? week : most),
    undefined,
  );
  return { scrubber, order, rooms, needed: turns.needed, weeks, ...(peak ? { peak } : {}) };
}

function roomTurns({ served, limit }: Asks, scrubbing: Scrubbing): RoomTurns | undefined {
  const course = roomCourse(served.room, served.untilDay, { ...served.choices, scrubbing });
  if (!course) return undefined;
  const setPoint = served.room.regime?.carbonDioxide?.value;
  const daily = course.course.points.filter(({ hours }) => hours % 24 === 0);
  return {
    room: served.room,
    served,
    scrubbing,
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
  for (const [{ served, sealed, removed }, turns] of given) {
    const { id } = served.room.fill;
    for (let day = 0, turn = 0; day < removed.length; day++) {
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
