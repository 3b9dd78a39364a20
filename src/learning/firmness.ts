import { inverse, Matrix } from 'ml-matrix';
import { firmnessTestSpread, softeningSpread } from '../keeping/assumptions';
import { fruitSpread, STATED_DEVIATIONS, spreadBetweenBins } from './assumptions';
import type { Interval } from './types';

/** A test of a lot's fruit: days since its first picking, the mean in newtons, and of how many fruit. */
export interface FirmnessSample {
  readonly days: number;
  readonly firmness: number;
  readonly fruit: number;
  /** Standard deviation from fruit to fruit, N; the usual one where it was not told. */
  readonly spread?: number | undefined;
  /** Firmness that fruit of the variety has lost by then in its room, N, by the plan without samples. */
  readonly lost: number;
}

/** What is known of a lot's firmness before its samples. */
export interface FirmnessPrior {
  /** Firmness at harvest, N, by the test; undefined where there was none. */
  readonly atHarvest: number | undefined;
}

/** A lot's firmness refitted: firmness at harvest less so many times what the variety loses. */
export interface FittedFirmness {
  readonly atHarvest: Interval;
  /** What is lost, as a share of what the plan would count. */
  readonly softening: Interval;
  /** Firmness lost, by the plan's own count, at which the two are uncorrelated: where firmness is known best. */
  readonly knownBestAt: number;
  /** Standard deviations there, N, and of the softening from there on, as a share of it. */
  readonly spread: number;
  readonly softeningSpread: number;
  /** Expected firmness, and its 95 % interval, once fruit of the variety would have lost so much. */
  readonly firmnessOnceLost: (lost: number) => Interval;
  readonly samples: readonly FirmnessSample[];
}

/** Without a test at harvest the first sample says where the course starts, and the prior next to nothing. */
const UNKNOWN_AT_HARVEST = 20;
/** How many fruit the usual spread counts as much as. */
const FRUIT_OF_USUAL = 20;

/**
 * The lot's course refitted to its samples. What the windows take for granted is the prior: firmness at harvest as
 * tested and softening as of the variety, each normally spread about that. Each sample is the course on its day, off by
 * what ten fruit and some bins are off. Normal and normal give a normal posterior in closed form: with no sample it is
 * the prior, with many it is theirs alone.
 */
export function fitFirmness(
  { atHarvest }: FirmnessPrior,
  samples: readonly FirmnessSample[],
): FittedFirmness | undefined {
  const first = samples[0];
  if (!first) return undefined;
  const start = atHarvest ?? first.firmness + first.lost;
  const startSpread = atHarvest === undefined ? UNKNOWN_AT_HARVEST : firmnessTestSpread.value;
  const precision = Matrix.diag([1 / startSpread ** 2, 1 / softeningSpread.value ** 2]);
  const weighted = Matrix.columnVector([start / startSpread ** 2, 1 / softeningSpread.value ** 2]);
  for (const sample of samples) {
    const variance = sampleError(sample) ** 2;
    const row = Matrix.columnVector([1, -sample.lost]);
    precision.add(row.mmul(row.transpose()).div(variance));
    weighted.add(Matrix.mul(row, sample.firmness / variance));
  }
  const covariance = inverse(precision);
  const mean = covariance.mmul(weighted);
  const [harvest, softening] = [mean.get(0, 0), mean.get(1, 0)];
  const [ofHarvest, both, ofSoftening] = [covariance.get(0, 0), covariance.get(0, 1), covariance.get(1, 1)];
  const deviationAt = (lost: number) =>
    Math.sqrt(Math.max(0, ofHarvest - 2 * lost * both + lost ** 2 * ofSoftening));
  const knownBestAt = both / ofSoftening;
  return {
    atHarvest: interval(harvest, Math.sqrt(ofHarvest)),
    softening: interval(softening, Math.sqrt(ofSoftening)),
    knownBestAt,
    spread: deviationAt(knownBestAt),
    softeningSpread: Math.sqrt(ofSoftening) / softening,
    firmnessOnceLost: (lost) => interval(harvest - softening * lost, deviationAt(lost)),
    samples,
  };
}

/** How far a sample's mean may be off the lot's: what so few fruit are off, and what its bins differ from the others. */
export function sampleError({ fruit, spread }: Pick<FirmnessSample, 'fruit' | 'spread'>): number {
  return Math.hypot(spreadOf(fruit, spread) / Math.sqrt(Math.max(1, fruit)), spreadBetweenBins.value);
}

/** A sample's own spread from fruit to fruit, which few fruit tell badly, put together with the usual one. */
function spreadOf(fruit: number, spread: number | undefined): number {
  if (spread === undefined || fruit < 2) return fruitSpread.value;
  const [usual, own] = [FRUIT_OF_USUAL * fruitSpread.value ** 2, (fruit - 1) * spread ** 2];
  return Math.sqrt((usual + own) / (FRUIT_OF_USUAL + fruit - 1));
}

function interval(value: number, deviation: number): Interval {
  return {
    value,
    low: value - STATED_DEVIATIONS * deviation,
    high: value + STATED_DEVIATIONS * deviation,
  };
}
