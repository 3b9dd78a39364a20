import type { Screened } from './resting';
import type { RestingSpan } from './types';

/** Hours between two readings whose difference is looked at: more than a valve needs, less than fruit needs to be seen. */
const APART_HOURS = 2;

/** Skewness from which so much of the rise is a valve's that what is left tells nothing of the leak. */
const LOPSIDED = 0.5;
/** Standard errors at which skewness is no chance. */
const AT_LEAST = 2;

/**
 * Whether a valve lets in air within the rests, so often that none is long enough without. Noise, and what changes
 * slowly, move oxygen up as fast as down; such a valve does not: oxygen falls slowly and leaps up, and a line through a
 * rest shows a leak that is the valve's. So the differences of oxygen over two hours are skewed: the third moment over
 * the third power of the deviation, without what coarse steps add where oxygen rises (a step now and then).
 */
export function leapsUp({ hours, oxygen, oxygenNoise }: Screened, spans: readonly RestingSpan[]): boolean {
  const differences = spans.flatMap((span) => differencesIn(hours, oxygen, span));
  const count = differences.length;
  const mean = differences.reduce((sum, one) => sum + one, 0) / count;
  let [squares, cubes] = [0, 0];
  for (const one of differences) {
    squares += (one - mean) ** 2;
    cubes += (one - mean) ** 3;
  }
  const bySteps = oxygenNoise.steps ** 2 * Math.max(0, mean);
  const skewness = (cubes / count - bySteps) / (squares / count) ** 1.5;
  return skewness > Math.max(LOPSIDED, AT_LEAST * Math.sqrt((6 * APART_HOURS) / count));
}

function differencesIn(hours: Float64Array, oxygen: Float64Array, { from, to }: RestingSpan): number[] {
  const differences: number[] = [];
  const last = to / 60 + 1e-6;
  let after = firstFrom(hours, from / 60 - 1e-6);
  for (let row = after; (hours[row] ?? last + 1) <= last; row++) {
    while ((hours[after] ?? Number.POSITIVE_INFINITY) - (hours[row] ?? 0) < APART_HOURS - 1e-6) after++;
    if ((hours[after] ?? Number.POSITIVE_INFINITY) > last) break;
    const difference = (oxygen[after] ?? Number.NaN) - (oxygen[row] ?? Number.NaN);
    if (!Number.isNaN(difference)) differences.push(difference);
  }
  return differences;
}

/** The first row at or after an hour; by halving. */
function firstFrom(hours: Float64Array, hour: number): number {
  let [low, high] = [0, hours.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((hours[middle] ?? 0) < hour) low = middle + 1;
    else high = middle;
  }
  return low;
}
