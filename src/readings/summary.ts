import type { Day } from '../plan/dates';
import { daysOf } from './days';
import { type Minute, quantities, type ReadQuantity, type RoomReadings } from './types';

/** One quantity of a room over a stretch of time. */
export interface QuantitySummary {
  readonly quantity: ReadQuantity;
  readonly count: number;
  readonly first: Minute;
  readonly last: Minute;
  /** The value at `last`. */
  readonly latest: number;
  readonly lowest: number;
  readonly mean: number;
  readonly highest: number;
  /** The longest time between two readings of it, in hours, and where it begins; undefined with one reading. */
  readonly longestGap?: { readonly hours: number; readonly from: Minute };
  /** Days between the first and the last without a reading of it. */
  readonly daysWithout: readonly Day[];
}

/** What the record of a room holds of each quantity that was read. */
export function summaryOf(readings: RoomReadings): QuantitySummary[] {
  return quantities.flatMap((quantity) => summaryOfQuantity(readings, quantity) ?? []);
}

function summaryOfQuantity(readings: RoomReadings, quantity: ReadQuantity): QuantitySummary | undefined {
  const { times } = readings;
  const values = readings.values[quantity];
  let [first, last, latest, gap, gapFrom] = [Number.NaN, Number.NaN, Number.NaN, 0, Number.NaN];
  times.forEach((time, index) => {
    const value = values[index] ?? Number.NaN;
    if (Number.isNaN(value)) return;
    if (Number.isNaN(first)) first = time;
    else if (time - last > gap) [gap, gapFrom] = [time - last, last];
    [last, latest] = [time, value];
  });
  const days = daysOf(readings, quantity);
  const count = days.reduce((sum, day) => sum + day.count, 0);
  if (count === 0) return undefined;
  return {
    quantity,
    count,
    first,
    last,
    latest,
    lowest: Math.min(...days.map(({ lowest }) => lowest)),
    mean: days.reduce((sum, day) => sum + day.mean * day.count, 0) / count,
    highest: Math.max(...days.map(({ highest }) => highest)),
    ...(count > 1 ? { longestGap: { hours: gap / 60, from: gapFrom } } : {}),
    daysWithout: missingDays(days.map(({ day }) => day)),
  };
}

function missingDays(days: readonly Day[]): Day[] {
  return days.flatMap((day, index) => {
    const before = days[index - 1];
    if (before === undefined) return [];
    return Array.from({ length: day - before - 1 }, (_, step) => before + 1 + step);
  });
}
