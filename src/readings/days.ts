import { withMore } from './running';
import type { DayOfReadings, ReadQuantity, RoomReadings } from './types';

/** Day by day, days without a reading left out. */
export function daysOf(readings: RoomReadings, quantity: ReadQuantity): readonly DayOfReadings[] {
  return withMore({}, readings)[quantity]?.days ?? [];
}
