import type { Day } from '../plan/dates';
import { withMore } from './running';
import type { ReadQuantity, RoomReadings } from './types';

/** What was read of one quantity on one day. */
export interface DayOfReadings {
  readonly day: Day;
  readonly count: number;
  readonly mean: number;
  readonly lowest: number;
  readonly highest: number;
}

/** Day by day, days without a reading left out. */
export function daysOf(readings: RoomReadings, quantity: ReadQuantity): readonly DayOfReadings[] {
  return withMore({}, readings)[quantity]?.days ?? [];
}
