import type { ReleaseProblem } from './types';

/** The working week before each, or -1: weeks without work are passed over. */
export function workingWeekBefore(fullWeeks: readonly number[]): Int32Array {
  let last = -1;
  return Int32Array.from(fullWeeks, (full, week) => {
    const before = full > 0 ? last : -1;
    if (full > 0) last = week;
    return before;
  });
}

/** Uneven work of a season's packing, in money; bins packed by week. */
export class Unevenness {
  private readonly before: Int32Array;
  private readonly pace: Float64Array;
  readonly price: number;

  constructor({ evenWork, weeks }: ReleaseProblem) {
    this.price = evenWork?.price ?? 0;
    this.before = workingWeekBefore(evenWork?.fullWeeks ?? new Array<number>(weeks).fill(1));
    this.pace = Float64Array.from({ length: weeks }, (_, week) => {
      const full = evenWork?.fullWeeks[week] ?? 1;
      return full > 0 ? 1 / full : 0;
    });
  }

  cost(bins: ArrayLike<number>): number {
    if (this.price <= 0) return 0;
    let sum = 0;
    for (let week = 0; week < this.before.length; week++) {
      if ((this.before[week] as number) >= 0) sum += Math.abs(this.step(bins, week));
    }
    return this.price * sum;
  }

  /** What one more bin in a week costs; at a kink, of what fits, the mean. */
  slope(bins: ArrayLike<number>, week: number): number {
    if (this.price <= 0) return 0;
    let change = (this.before[week] as number) >= 0 ? Math.sign(this.step(bins, week)) : 0;
    const after = this.before.indexOf(week);
    if (after >= 0) change -= Math.sign(this.step(bins, after));
    return this.price * change * (this.pace[week] as number);
  }

  /** Bins by which a week's pace is above that of the working week before. */
  private step(bins: ArrayLike<number>, week: number): number {
    const before = this.before[week] as number;
    return (
      (bins[week] ?? 0) * (this.pace[week] as number) - (bins[before] ?? 0) * (this.pace[before] as number)
    );
  }
}

/** Bins packed of all rooms in each week. */
export function binsByWeek(packed: readonly (readonly number[])[], weeks: number): Float64Array {
  const bins = new Float64Array(weeks);
  for (const row of packed)
    for (let week = 0; week < weeks; week++) bins[week] = (bins[week] as number) + (row[week] ?? 0);
  return bins;
}
