import type { ComputedSeason } from '../findings/types';
import type { Day } from '../plan/dates';
import type { Minute, ReadQuantity } from '../readings/types';
import { roomCelsius } from '../room/course/fruit-temperature';
import { pointAt } from '../room/course/room-course';
import type { FilledRoom } from '../room/types';

/**
 * What the plan expects in a room at a time; before sealing the temperature its regime holds, and no gas. Of the gas of
 * an opened room nothing is expected: no computed figure stands for what has to be read there.
 */
export function expectedAt(
  season: ComputedSeason,
  filled: FilledRoom,
  quantity: ReadQuantity,
  time: Minute,
): number | undefined {
  const course = season.courses?.courses.get(filled.fill.id);
  if (quantity !== 'temperature' && isOpenedAt(filled, time)) return undefined;
  const hours = course ? time / 60 - 24 * course.sealed : -1;
  if (!course || hours < 0) return quantity === 'temperature' ? setPointOf(filled, quantity) : undefined;
  const within = Math.min(hours, course.room.untilHours);
  if (quantity === 'temperature') return roomCelsius(course.room.temperature, within);
  const point = pointAt(course.course, within);
  if (quantity === 'oxygen') return point?.oxygen;
  return quantity === 'carbon-dioxide' ? point?.carbonDioxide : undefined;
}

/** Whether the seal had been broken by then, as far as is on record. */
export function isOpenedAt({ fill }: FilledRoom, time: Minute): boolean {
  return fill.opened !== undefined && time >= fill.opened.value * 1440;
}

/** What the regime holds of it. */
export function setPointOf({ regime }: FilledRoom, quantity: ReadQuantity): number | undefined {
  if (quantity === 'temperature') return regime?.temperature.value;
  if (quantity === 'oxygen') return regime?.oxygen?.value;
  return quantity === 'carbon-dioxide' ? regime?.carbonDioxide?.value : undefined;
}

/** The fill a room's readings of a day belong to: the last one begun by then, else its first. */
export function fillAt(season: ComputedSeason, room: string, day: Day): FilledRoom | undefined {
  const fills = [...season.filled.values()]
    .filter((filled) => filled.room.id === room)
    .sort((a, b) => (a.fill.firstBin?.value ?? 0) - (b.fill.firstBin?.value ?? 0));
  return fills.findLast(({ fill }) => (fill.firstBin?.value ?? 0) <= day) ?? fills[0];
}
