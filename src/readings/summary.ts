import type { Day } from '../plan/dates';
import { type RunningQuantity, type RunningRoom, withMore } from './running';
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
  return summaryOfRunning(withMore({}, readings));
}

/** The same of what has been read so far. */
export function summaryOfRunning(room: RunningRoom): QuantitySummary[] {
  return quantities.flatMap((quantity) => {
    const running = room[quantity];
    return running ? [summaryOfQuantity(quantity, running)] : [];
  });
}

function summaryOfQuantity(
  quantity: ReadQuantity,
  { first, last, latest, gap, gapFrom, days }: RunningQuantity,
): QuantitySummary {
  const count = days.reduce((sum, day) => sum + day.count, 0);
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
