import { workingWeekBefore } from './even-work';
import type { ReleaseProblem } from './types';

/**
 * Prices of what rooms share. At any prices whatever the season falls apart into rooms, and what each brings at its best
 * together with what all that is shared costs at its full amount limits the value of every schedule.
 */
export interface SharedPrices {
  /** Money for a bin in the packhouse, by week; not negative. */
  readonly packing: Float64Array;
  /** Money for a bin on the days left to rooms in the last week of their emptying, by week; on top of `packing`. */
  readonly lastDays: Float64Array;
  /** Money for a room that stands open, by week; not negative. */
  readonly open: Float64Array;
  /** Money for each bin by which a week's pace is above that of the working week before, within the price of uneven work. */
  readonly pace: Float64Array;
  /** Money for a carton's place in a demand: of demand `d` in week `t` at `d * weeks + t`; not negative. */
  readonly wanted: Float64Array;
}

/** What there is of all that is shared, in the order of the prices; `flat` holds prices of all kinds in one array. */
export interface Shared {
  readonly amounts: Float64Array;
  /** How far a price moves for what is asked too much. */
  readonly scale: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  /** The working week before each, or -1, and what a bin counts in a week's pace; of no use where uneven work is free. */
  readonly weekBefore: Int32Array;
  readonly paceOfBin: Float64Array;
}

const KINDS_BY_WEEK = 4;

/** Views of one array as prices, or as amounts taken of what is shared. */
export function pricesIn(flat: Float64Array, weeks: number): SharedPrices {
  const part = (kind: number) => flat.subarray(kind * weeks, (kind + 1) * weeks);
  return {
    packing: part(0),
    lastDays: part(1),
    open: part(2),
    pace: part(3),
    wanted: flat.subarray(KINDS_BY_WEEK * weeks),
  };
}

export function noPrices({ weeks, demands }: ReleaseProblem): Float64Array {
  return new Float64Array(weeks * (KINDS_BY_WEEK + demands.length));
}

export function sharedOf(problem: ReleaseProblem): Shared {
  const { weeks, rooms, evenWork } = problem;
  const amounts = noPrices(problem);
  const scale = noPrices(problem);
  const lower = noPrices(problem);
  const upper = noPrices(problem).fill(Number.POSITIVE_INFINITY);
  const [there, moves] = [pricesIn(amounts, weeks), pricesIn(scale, weeks)];
  const bins = Math.max(1, rooms.reduce((sum, room) => sum + room.bins, 0) / Math.max(1, rooms.length));
  const full = Math.max(1, ...problem.packingBins);
  const uneven = evenWork?.price ?? 0;
  const fullWeeks = evenWork?.fullWeeks ?? new Array<number>(weeks).fill(1);
  const weekBefore = workingWeekBefore(fullWeeks);
  pricesIn(lower, weeks).pace.fill(-uneven);
  pricesIn(upper, weeks).pace.fill(uneven);
  for (let week = 0; week < weeks; week++) {
    there.packing[week] = problem.packingBins[week] ?? 0;
    moves.packing[week] = 1 / Math.max(there.packing[week] ?? 0, full / 10);
    if (problem.lastWeekBins) {
      there.lastDays[week] = problem.lastWeekBins[week] ?? 0;
      moves.lastDays[week] = 1 / Math.max(there.lastDays[week] ?? 0, full / 10);
    }
    if (problem.roomsOpenAtOnce !== null) {
      there.open[week] = problem.roomsOpenAtOnce;
      moves.open[week] = bins / Math.max(1, problem.roomsOpenAtOnce);
    }
    if (uneven > 0 && (weekBefore[week] ?? -1) >= 0) moves.pace[week] = 1 / full;
  }
  problem.demands.forEach(({ cartons }, demand) => {
    cartons.forEach((wanted, week) => {
      there.wanted[demand * weeks + week] = wanted;
      if (wanted > 0) moves.wanted[demand * weeks + week] = 1 / wanted;
    });
  });
  const paceOfBin = Float64Array.from(fullWeeks, (one) => (one > 0 ? 1 / one : 0));
  return { amounts, scale, lower, upper, weekBefore, paceOfBin };
}
