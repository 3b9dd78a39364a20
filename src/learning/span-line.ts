import type { Line } from './types';

/** Deviations from the line beyond which a reading is left out of it, once. */
const LEFT_OUT_AT = 3.5;

/**
 * The straight line through the readings of rows `first` up to `end`, by least squares; readings that lie far off are
 * left out and the line drawn again. The slope's error is from the sensor's noise, or from the scatter about the line
 * where that is larger. Undefined with fewer than three readings or all at one time.
 */
export function lineThrough(
  hours: Float64Array,
  values: Float64Array,
  first: number,
  end: number,
  noise: number,
): Line | undefined {
  const all = leastSquares(hours, values, first, end, undefined);
  if (!all) return undefined;
  const limit = LEFT_OUT_AT * Math.max(noise, 1e-9);
  const isFar = (row: number) =>
    Math.abs((values[row] ?? 0) - all.level - all.slope * ((hours[row] ?? 0) - all.at)) > limit;
  const kept = leastSquares(hours, values, first, end, isFar) ?? all;
  const scatter = kept.count > 2 ? Math.sqrt(kept.residual / (kept.count - 2)) : 0;
  return {
    count: kept.count,
    at: kept.at,
    level: kept.level,
    slope: kept.slope,
    slopeError: Math.max(noise, scatter, 1e-9) / Math.sqrt(kept.spread),
    scatter: noise > 0 ? scatter / noise : 1,
  };
}

interface Sums {
  readonly count: number;
  readonly at: number;
  readonly level: number;
  readonly slope: number;
  /** Sum of squares of the hours about their mean. */
  readonly spread: number;
  readonly residual: number;
}

function leastSquares(
  hours: Float64Array,
  values: Float64Array,
  first: number,
  end: number,
  isLeftOut: ((row: number) => boolean) | undefined,
): Sums | undefined {
  const origin = hours[first] ?? 0;
  let [count, t, y, tt, ty, yy] = [0, 0, 0, 0, 0, 0];
  for (let row = first; row < end; row++) {
    const value = values[row] ?? Number.NaN;
    if (Number.isNaN(value) || isLeftOut?.(row)) continue;
    const since = (hours[row] ?? 0) - origin;
    count++;
    t += since;
    y += value;
    tt += since * since;
    ty += since * value;
    yy += value * value;
  }
  const spread = tt - (t * t) / count;
  if (count < 3 || !(spread > 1e-9)) return undefined;
  const slope = (ty - (t * y) / count) / spread;
  const residual = Math.max(0, yy - (y * y) / count - slope * slope * spread);
  return { count, at: origin + t / count, level: y / count, slope, spread, residual };
}
