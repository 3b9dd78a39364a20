/** How far readings scatter, and which of them are spikes: both in one pass, without a model of the room. */

/** Robust standard deviations that a reading may stand off from its neighbours. */
const SPIKE_AT = 6;
/** Share of the readings that is left out where the noise is measured, and the variance that the rest of a normal has. */
const FARTHEST = 0.1;
const OF_KEPT = 0.623;

export function median(values: ArrayLike<number>): number {
  const sorted = Float64Array.from(values).sort();
  const middle = sorted.length >> 1;
  if (sorted.length === 0) return Number.NaN;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

/** A sensor's noise, and the steps in which it shows its values. */
export interface Noise {
  readonly deviation: number;
  readonly steps: number;
}

/**
 * Standard deviation of a sensor's noise, from how far each reading lies off the middle of its two neighbours: what
 * changes slowly, as a room's gas does, takes no part. The tenth that lies farthest off is left out, spikes and sudden
 * changes among it. At least what a sensor of so coarse steps cannot tell apart.
 */
export function noiseOf(values: ArrayLike<number>): Noise {
  const squares: number[] = [];
  let [before, last, finest] = [Number.NaN, Number.NaN, Number.POSITIVE_INFINITY];
  for (let index = 0; index < values.length; index++) {
    const value = values[index] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    if (!Number.isNaN(before)) squares.push((before - 2 * last + value) ** 2);
    // Values come as single-precision numbers: what differs by less is the same.
    const step = Math.abs(value - last);
    if (step > 1e-4 && step < finest) finest = step;
    [before, last] = [last, value];
  }
  if (squares.length === 0) return { deviation: 0, steps: 0 };
  const kept = Float64Array.from(squares)
    .sort()
    .slice(0, Math.ceil(squares.length * (1 - FARTHEST)));
  const mean = kept.reduce((sum, square) => sum + square, 0) / kept.length;
  const steps = Number.isFinite(finest) ? finest : 0;
  return { deviation: Math.max(Math.sqrt(mean / OF_KEPT / 6), steps / Math.sqrt(12)), steps };
}

/** The value below which a share of all lies. */
export function quantile(values: ArrayLike<number>, share: number): number {
  const sorted = Float64Array.from(values).sort();
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
}

/** A copy in which spikes are NaN: readings far off the median of themselves and two neighbours either side. */
export function withoutSpikes(values: ArrayLike<number>, noise: number): Float64Array {
  const kept = Float64Array.from(values);
  const read: number[] = [];
  for (let index = 0; index < kept.length; index++) if (!Number.isNaN(kept[index])) read.push(index);
  const around = new Float64Array(5);
  for (let place = 2; place < read.length - 2; place++) {
    for (let side = -2; side <= 2; side++) around[side + 2] = values[read[place + side] ?? 0] ?? Number.NaN;
    const at = read[place] ?? 0;
    if (Math.abs((around[2] ?? 0) - middleOfFive(around)) > SPIKE_AT * noise) kept[at] = Number.NaN;
  }
  return kept;
}

/** The third of five by size, without sorting: this runs for each of a year's readings. */
function middleOfFive(five: Float64Array): number {
  for (const one of five) {
    let [below, same] = [0, 0];
    for (const other of five) {
      if (other < one) below++;
      else if (other === one) same++;
    }
    if (below <= 2 && below + same >= 3) return one;
  }
  return Number.NaN;
}

/**
 * How far a straight line's slope, over so many hours, may be off because the sensor shows coarse steps. What rounding
 * does to a slowly rising value is a wave of the steps' height, which noise blurs: its first harmonic is steps / pi, less
 * by exp(-2 (pi deviation / steps)^2) with noise of that deviation. A wave changes the slope by up to about 1.9 times its
 * height over the span.
 */
export function slopeOffByRounding({ deviation, steps }: Noise, hours: number): number {
  if (!(steps > 0)) return 0;
  const blurring = Math.max(0, deviation ** 2 - steps ** 2 / 12);
  const height = (steps / Math.PI) * Math.exp(-2 * Math.PI ** 2 * (blurring / steps ** 2));
  return (1.9 * height) / hours;
}
