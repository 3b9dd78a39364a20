import type { Day } from '../plan/dates';
import type { ReadQuantity, RoomReadings } from './types';

/** What was read of one quantity on one day. */
export interface DayOfReadings {
  readonly day: Day;
  readonly count: number;
  readonly mean: number;
  readonly lowest: number;
  readonly highest: number;
}

const MINUTES_A_DAY = 1440;

/** Day by day, days without a reading left out. */
export function daysOf(readings: RoomReadings, quantity: ReadQuantity): DayOfReadings[] {
  const days: DayOfReadings[] = [];
  const values = readings.values[quantity];
  let [day, count, sum, lowest, highest] = [Number.NaN, 0, 0, 0, 0];
  const close = () => {
    if (count > 0) days.push({ day, count, mean: sum / count, lowest, highest });
  };
  readings.times.forEach((time, index) => {
    const value = values[index] ?? Number.NaN;
    if (Number.isNaN(value)) return;
    const on = Math.floor(time / MINUTES_A_DAY);
    if (on !== day) {
      close();
      [day, count, sum, lowest, highest] = [on, 0, 0, value, value];
    }
    count++;
    sum += value;
    lowest = Math.min(lowest, value);
    highest = Math.max(highest, value);
  });
  close();
  return days;
}
