import type { Minute } from '../readings/types';
import { breathingLimits, levelLimits } from './limits';
import { median } from './median';
import type { ExpectedFill, Sighting } from './types';

/** What watching a room's breathing goes on from. Plain data. */
export interface BreathingState {
  /** Carbon dioxide since it last fell: time and per cent. */
  rise: [Minute, number][];
  day: number | null;
  /** Rises since a rate was last made of them: their slopes, per cent an hour, times their weights, and the weights. */
  slopes: number;
  weights: number;
  /** The analyser's scatter, per cent: standard deviation of a reading. */
  noise: number;
  ownDays: number[];
  /** The rate that days are held against, per cent an hour. */
  reference: number | null;
  latest: number | null;
  sum: number;
  /** The first of the last days that all were beyond what is allowed; null where the last day was not. */
  from: Minute | null;
  open: Sighting | null;
  calmDays: number;
}

const MINUTES_A_DAY = 1440;
const LEAST_READINGS = 3;
const MOST_READINGS = 13;
const CALM_DAYS = 3;
/** Days without rises enough for a rate after which those there are count no more. */
const MOST_DAYS = 4;
/** Rises are gathered until their rate is known to this share of the expected one. */
const RATE_KNOWN_TO = 0.2;
/** A room's own rate counts from this share of the expected one on: less is not seen well enough. */
const LEAST_OF_EXPECTED = 0.75;
/** A fall of so many times the scatter, and of this much, ends a rise. */
const FALL_SCATTER = 2.5;
const LEAST_FALL = 0.1;
/** Two readings of the same lie apart by so many standard deviations as a rule: 0.6745 * sqrt(2), the middle. */
const APART_BY_NOISE = 0.954;

export function newBreathing(): BreathingState {
  return {
    rise: [],
    day: null,
    slopes: 0,
    weights: 0,
    noise: levelLimits['carbon-dioxide'].noise.value,
    ownDays: [],
    reference: null,
    latest: null,
    sum: 0,
    from: null,
    open: null,
    calmDays: 0,
  };
}

/**
 * How fast carbon dioxide rises between two scrubbings is how fast the fruit breathes. Each rise of three readings or
 * more, without those next to a fall, gives a slope by least squares, which counts the more the longer the rise; the
 * slopes of a day, or of as many days as it takes to know the rate well enough against the analyser's scatter, a rate;
 * the first rates, no higher than the sources', what later ones are held against, added up over days.
 */
export class BreathingWatch {
  constructor(
    private readonly state: BreathingState,
    private readonly fill: string,
    private readonly expected: NonNullable<ExpectedFill['breathing']>,
    private readonly closed: (sighting: Sighting) => void,
  ) {}

  /** `scatter` is how far readings in a row lie apart, as a rule. */
  take(time: Minute, percent: number, scatter: number): void {
    const { state } = this;
    state.noise = scatter / APART_BY_NOISE;
    const before = state.rise.at(-1);
    if (before && Math.abs(percent - before[1]) > levelLimits['carbon-dioxide'].jump.value) this.endRise();
    else if (before && this.hasFallen(percent)) {
      // The scrubber may have begun before the last reading and run on after this one: neither is of a rise.
      state.rise.pop();
      this.endRise();
      return;
    }
    const isGap = before && time - before[0] > breathingLimits.apart.value;
    if (isGap || state.rise.length >= MOST_READINGS) this.endRise();
    state.rise.push([time, percent]);
  }

  private hasFallen(percent: number): boolean {
    const { rise, noise } = this.state;
    let highest = 0;
    for (const [, value] of rise) if (value > highest) highest = value;
    return percent < highest - Math.max(LEAST_FALL, FALL_SCATTER * noise);
  }

  stop(time: Minute): void {
    this.endRise();
    if (this.state.open) this.closed({ ...this.state.open, until: time });
    Object.assign(this.state, newBreathing());
  }

  private endRise(): void {
    const { state } = this;
    const { rise } = state;
    state.rise = [];
    const end = rise.at(-1)?.[0];
    if (end === undefined || rise.length < LEAST_READINGS) return;
    const day = Math.floor(end / MINUTES_A_DAY);
    state.day ??= day;
    if (day !== state.day) this.endDay(day);
    const [slope, weight] = slopeOf(rise);
    state.slopes += slope * weight;
    state.weights += weight;
  }

  /** Makes a rate of the rises up to now, where they are enough for one. */
  private endDay(next: number): void {
    const { state } = this;
    const { day, weights } = state;
    if (day === null || weights === 0) return;
    const enough = (state.noise / (RATE_KNOWN_TO * this.expected.expected)) ** 2;
    if (weights < enough) {
      if (next - day > MOST_DAYS) [state.slopes, state.weights, state.day] = [0, 0, next];
      return;
    }
    const rate = state.slopes / weights;
    [state.slopes, state.weights, state.latest, state.day] = [0, 0, rate, next];
    if (state.reference === null) {
      state.ownDays.push(rate);
      if (state.ownDays.length < breathingLimits.ownDays.value) return;
      const { expected, high } = this.expected;
      state.reference = Math.max(LEAST_OF_EXPECTED * expected, Math.min(high, median(state.ownDays)));
      state.ownDays = [];
      return;
    }
    this.addDay(day, (100 * rate) / state.reference - 100, rate, next);
  }

  private addDay(day: number, above: number, rate: number, next: number): void {
    const { state } = this;
    const { allowed, addsUpTo } = breathingLimits;
    const beyond = above - allowed.value;
    if (state.open) {
      state.calmDays = beyond > 0 ? 0 : state.calmDays + 1;
      state.open = { ...state.open, latest: above };
      if (above > state.open.size) state.open = { ...state.open, size: above, read: rate };
      if (state.calmDays < CALM_DAYS) return;
      this.closed({ ...state.open, until: (day + 1 - CALM_DAYS) * MINUTES_A_DAY });
      [state.open, state.sum, state.from, state.calmDays] = [null, 0, null, 0];
      return;
    }
    state.from = beyond > 0 ? (state.from ?? day * MINUTES_A_DAY) : null;
    state.sum = Math.max(0, state.sum + Math.min(beyond, addsUpTo.value / 2));
    if (state.sum <= addsUpTo.value) return;
    state.open = {
      kind: 'breathes-faster',
      fill: this.fill,
      quantity: 'carbon-dioxide',
      from: state.from ?? day * MINUTES_A_DAY,
      told: next * MINUTES_A_DAY,
      size: above,
      read: rate,
      expected: state.reference ?? this.expected.expected,
      latest: above,
    };
  }
}

/** Slope by least squares, per cent an hour, and its weight: the sum of squares of the times, so that long rises count. */
function slopeOf(rise: readonly [Minute, number][]): [number, number] {
  const middle = rise.reduce((sum, [time]) => sum + time / 60, 0) / rise.length;
  const mean = rise.reduce((sum, [, value]) => sum + value, 0) / rise.length;
  let [weight, products] = [0, 0];
  for (const [time, value] of rise) {
    const off = time / 60 - middle;
    weight += off * off;
    products += off * (value - mean);
  }
  return weight > 0 ? [products / weight, weight] : [0, 0];
}
