import type { Day } from '../plan/dates';
import type { Minute } from '../readings/types';
import { roomTemperature } from '../room/course/of-plan';
import { hoursOf } from '../room/course/room-course';
import { CARBON_DIOXIDE_KG, molesPerCubicMetre } from '../room/course/state';
import type { CoursePoint, RoomCourse } from '../room/course/types';
import type { FilledRoom } from '../room/types';
import type { ExpectedFill, Track } from './types';

const MINUTES_A_DAY = 1440;
/** From the expected set-point, and from the last bin of a room that is cold from the first day, to being watched. */
const SETTLING_DAYS = 1;
/** A room whose course never reaches its set-point is held against what the course has by then. */
const LATEST_HOLD_DAYS = 14;
const COLD_DAYS = 2;

/**
 * What a fill's readings are held against: its course from sealing on, and its days as they were. Undefined without a
 * first day or a regime. `course` is undefined for a room kept in air.
 */
export function expectedFill(filled: FilledRoom, course: RoomCourse | undefined): ExpectedFill | undefined {
  const { fill, room, regime } = filled;
  const begins = fill.firstBin?.value;
  if (begins === undefined || !regime) return undefined;
  const sealed = fill.sealed?.value;
  const full = fill.lastBin?.value ?? sealed ?? begins;
  const { knots } = roomTemperature(filled, regime, 0);
  return {
    fill: fill.id,
    room: room.id,
    begins: startOf(begins),
    sealed: sealed === undefined ? undefined : startOf(sealed),
    holds: course && startOf(course.sealed) + holdsAfter(course),
    cold: startOf(Math.max(full, sealed ?? full) + COLD_DAYS),
    opened: fill.opened && startOf(fill.opened.value),
    emptied: fill.emptied && startOf(fill.emptied.value),
    oxygen: course && track(course, ({ oxygen }) => oxygen),
    carbonDioxide: course && track(course, ({ carbonDioxide }) => carbonDioxide),
    temperature: {
      times: knots.map(({ hours }) => hours * 60),
      values: knots.map(({ celsius }) => celsius),
    },
    breathing: breathingOf(filled),
    leastOxygen: course?.room.limits.leastOxygen,
    mostCarbonDioxide: course?.room.limits.mostCarbonDioxide,
  };
}

/** By room, what each of its fills is held against, the first to begin first. */
export function expectedFills(
  filled: Iterable<FilledRoom>,
  courseOf: (fill: string) => RoomCourse | undefined,
): Map<string, ExpectedFill[]> {
  const rooms = new Map<string, ExpectedFill[]>();
  for (const one of filled) {
    const expected = expectedFill(one, courseOf(one.fill.id));
    if (expected) rooms.set(one.room.id, [...(rooms.get(one.room.id) ?? []), expected]);
  }
  for (const fills of rooms.values()) fills.sort((a, b) => a.begins - b.begins);
  return rooms;
}

function startOf(day: Day): Minute {
  return day * MINUTES_A_DAY;
}

function holdsAfter({ course }: RoomCourse): Minute {
  const reached = (hoursOf(course, 'set-point-reached') ?? LATEST_HOLD_DAYS * 24) * 60;
  return Math.min(reached, LATEST_HOLD_DAYS * MINUTES_A_DAY) + SETTLING_DAYS * MINUTES_A_DAY;
}

function track({ course, sealed }: RoomCourse, of: (point: CoursePoint) => number): Track {
  return {
    times: course.points.map(({ hours }) => startOf(sealed) + hours * 60),
    values: course.points.map(of),
  };
}

/** What the fruit's carbon dioxide makes of the room's gas in an hour. */
function breathingOf({
  carbonDioxideInStore: made,
  carbonDioxideInStoreHigh: high,
  freeGasVolume: gas,
  regime,
}: FilledRoom): ExpectedFill['breathing'] {
  if (!made || !gas || !(gas.value > 0) || !regime) return undefined;
  const kgOfAllGas = gas.value * molesPerCubicMetre(regime.temperature.value) * CARBON_DIOXIDE_KG;
  const percentAnHour = (kgADay: number) => (100 * kgADay) / 24 / kgOfAllGas;
  return { expected: percentAnHour(made.value), high: percentAnHour(high?.value ?? made.value) };
}
