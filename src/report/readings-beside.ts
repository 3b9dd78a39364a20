import type { ComputedSeason } from '../findings/types';
import type { Day } from '../plan/dates';
import type { ReadQuantity } from '../readings/types';
import { roomCelsius } from '../room/course/fruit-temperature';
import { pointAt } from '../room/course/room-course';
import type { FilledRoom } from '../room/types';

/** What the plan expects in a room at the start of a day; undefined before sealing, or where nothing tells. */
export function expectedOn(
  season: ComputedSeason,
  filled: FilledRoom,
  quantity: ReadQuantity,
  day: Day,
): number | undefined {
  const course = season.courses?.courses.get(filled.fill.id);
  if (!course || day < course.sealed)
    return quantity === 'temperature' ? setPointOf(filled, quantity) : undefined;
  const hours = Math.min(24 * (day - course.sealed), course.room.untilHours);
  if (quantity === 'temperature') return roomCelsius(course.room.temperature, hours);
  const point = pointAt(course.course, hours);
  if (quantity === 'oxygen') return point?.oxygen;
  return quantity === 'carbon-dioxide' ? point?.carbonDioxide : undefined;
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
