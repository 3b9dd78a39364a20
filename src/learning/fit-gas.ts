import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { inverse, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { AIR } from '../room/course/state';
import { dailySwing, STATED_CHANCE } from './assumptions';
import { type DailyPart, dailyPart } from './daily-wave';
import { longRun } from './long-run';
import { median } from './screen';
import { studentT } from './student';
import type { RestingSpan } from './types';

/** What the plan's reference makes of a room's fruit at one span: per cent of the gas volume an hour. */
export interface SpanReference {
  readonly span: RestingSpan;
  /** Carbon dioxide given off, and oxygen used, at the span's gas. */
  readonly carbonDioxide: number;
  readonly oxygen: number;
}

/** Fixed while one fit is made; the fit is made again for each way in which they may be otherwise. */
export interface FitGiven {
  /** Volumes of the room's gas that air exchanges in an hour; undefined to have it fitted. */
  readonly exchange?: number | undefined;
  /** Factor on the reference: at oxygen other than was read. */
  readonly referenceFactor: number;
  /** Factor on the reference's oxygen used: another respiratory quotient. */
  readonly oxygenFactor: number;
  /** Per cent an hour by which the sensors' zeros drift upward. */
  readonly carbonDioxideDrift: number;
  readonly oxygenDrift: number;
  /** Factor on the slopes: sensors that read so much too low. */
  readonly carbonDioxideGain: number;
  readonly oxygenGain: number;
}

export const asRead: FitGiven = {
  referenceFactor: 1,
  oxygenFactor: 1,
  carbonDioxideDrift: 0,
  oxygenDrift: 0,
  carbonDioxideGain: 1,
  oxygenGain: 1,
};

export interface FitResult extends Fitted {
  readonly observed: readonly Observed[];
}

/** A slope of one gas in one span, per cent an hour. */
export interface Observed {
  readonly reference: SpanReference;
  readonly gas: Gas;
  readonly slope: number;
  readonly error: number;
  /** Of the leak's daily swing. */
  readonly daily: DailyPart;
  /** How much it counts: one over its variance, less where it fits nothing. */
  readonly weight: number;
  /** How far it fits, 1 to 0 for a slope that is left out. */
  readonly fits: number;
}

type Gas = 'carbon-dioxide' | 'oxygen';

/** Standard deviations at which a slope counts no more (Tukey's biweight). */
const BIWEIGHT = 5;
const ROUNDS = 6;
/** Exchange is fitted in thousandths of a volume an hour, so that both unknowns are about one. */
const SCALE = 1e-3;
/** Below which exchange is not told from none, thousandths of a volume an hour. */
const LEAST_EXCHANGE = 0.02;
/** Median of the square of a standard normal variate. */
const MEDIAN_SQUARE = 0.4549;

/**
 * The slopes that a room of this respiration and exchange shows, per cent an hour: what the fruit makes and uses, air in
 * at its content, room gas out at the span's. What is made beyond what is used goes out; half of it less comes in.
 */
export function slopesOf(
  { span, carbonDioxide, oxygen }: SpanReference,
  share: number,
  exchange: number,
  oxygenFactor = 1,
): { readonly carbonDioxide: number; readonly oxygen: number } {
  const [made, used] = [share * carbonDioxide, share * oxygen * oxygenFactor];
  const surplus = (made - used) / 100;
  const airIn = Math.max(0, exchange - surplus / 2);
  const out = airIn + surplus;
  const level = span.oxygen?.level ?? 0;
  return {
    carbonDioxide: made + airIn * 100 * AIR.carbonDioxide - out * span.carbonDioxide.level,
    oxygen: airIn * 100 * AIR.oxygen - used - out * level,
  };
}

/**
 * Respiration and exchange that fit the slopes best: least squares by Levenberg and Marquardt, each slope weighted by
 * its own error and by what spans differ beyond it; slopes that do not fit count for less, far ones not at all.
 */
export function fitGas(
  references: readonly SpanReference[],
  given: FitGiven = asRead,
): FitResult | undefined {
  let observed = observedOf(references, given);
  if (observed.length === 0) return undefined;
  let fitted: Fitted = { share: 1, exchange: given.exchange ?? SCALE, cosine: 0, sine: 0 };
  for (let round = 0; round < ROUNDS; round++) {
    fitted = leastSquares(observed, given, fitted);
    observed = weighted(observed, fitted, given);
  }
  return { ...fitted, observed };
}

export interface Fitted {
  /** Respiration as a share of the reference. */
  readonly share: number;
  /** Volumes of the room's gas that air exchanges in an hour. */
  readonly exchange: number;
  /** How far that swings with the hour of the day: at midnight, and at six. */
  readonly cosine: number;
  readonly sine: number;
}

/** The fit with the same weights where something given is otherwise: by how much that moves it. */
export function refitted(fit: FitResult, given: FitGiven): Fitted {
  const others = observedOf([...new Set(fit.observed.map(({ reference }) => reference))], given);
  const weights = new Map(fit.observed.map((one) => [keyOf(one), one]));
  const observed = others.flatMap((other) => {
    const one = weights.get(keyOf(other));
    return one ? [{ ...other, weight: one.weight, fits: one.fits }] : [];
  });
  return leastSquares(observed, given, fit);
}

function keyOf({ reference, gas }: Observed): string {
  return `${gas} ${reference.span.from}`;
}

function observedOf(references: readonly SpanReference[], given: FitGiven): Observed[] {
  return references.flatMap((reference) => {
    const { carbonDioxide, oxygen } = reference.span;
    const { from, to } = reference.span;
    const daily = dailyPart(carbonDioxide.at, (to - from) / 60);
    const one = (gas: Gas, slope: number, error: number): Observed => ({
      reference,
      gas,
      slope,
      error,
      daily,
      weight: 1 / error ** 2,
      fits: 1,
    });
    const gained = carbonDioxide.slope * given.carbonDioxideGain - given.carbonDioxideDrift;
    return [
      one('carbon-dioxide', gained, carbonDioxide.slopeError),
      ...(oxygen && given.exchange === undefined
        ? [one('oxygen', oxygen.slope * given.oxygenGain - given.oxygenDrift, oxygen.slopeError)]
        : []),
    ];
  });
}

function modelled({ reference, gas, daily }: Observed, fitted: Fitted, given: FitGiven): number {
  const { share, exchange, cosine, sine } = fitted;
  const now = exchange + cosine * daily.cosine + sine * daily.sine;
  const slopes = slopesOf(reference, share * given.referenceFactor, now, given.oxygenFactor);
  return gas === 'oxygen' ? slopes.oxygen : slopes.carbonDioxide;
}

/** Unknowns as the library has them, all of them about one, and back. */
function unknownsOf({ share, exchange, cosine, sine }: Fitted, given: FitGiven): number[] {
  return given.exchange === undefined ? [share, exchange / SCALE, cosine / SCALE, sine / SCALE] : [share];
}

function fittedOf(
  [share = 0, exchange = 0, cosine = 0, sine = 0]: readonly number[],
  given: FitGiven,
): Fitted {
  return {
    share,
    exchange: given.exchange ?? exchange * SCALE,
    cosine: cosine * SCALE,
    sine: sine * SCALE,
  };
}

/**
 * How much the daily swing is held to none, one over its variance: rests at the same hours of every day leave it open,
 * and it is then what weather makes of a leak at most.
 */
function heldBy({ exchange }: Fitted): number {
  return 2 / (dailySwing.value * Math.max(LEAST_EXCHANGE, exchange / SCALE)) ** 2;
}

/**
 * Slopes and model are both multiplied by the root of the weight: the library then needs none. The swing's two parts
 * stand behind them as two more that should be nothing.
 */
function leastSquares(observed: readonly Observed[], given: FitGiven, from: Fitted): Fitted {
  const roots = observed.map(({ weight }) => Math.sqrt(weight));
  const initialValues = unknownsOf(from, given);
  const swing = Math.sqrt(heldBy(from));
  const held = initialValues.slice(2).map((_, part) => part + 2);
  const { parameterValues } = levenbergMarquardt(
    {
      x: [...observed, ...held].map((_, index) => index),
      y: [...observed.map(({ slope }, index) => slope * (roots[index] ?? 0)), ...held.map(() => 0)],
    },
    (parameters) => {
      const fitted = fittedOf(parameters, given);
      return (index) => {
        const one = observed[index];
        return one
          ? modelled(one, fitted, given) * (roots[index] ?? 0)
          : swing * (parameters[held[index - observed.length] ?? 0] ?? 0);
      };
    },
    {
      initialValues,
      gradientDifference: 1e-4,
      centralDifference: true,
      damping: 1e-6,
      // All but straight in the unknowns, and each round goes on where the last one ended.
      maxIterations: 2,
      errorTolerance: 0,
    },
  );
  return fittedOf(parameterValues, given);
}

/** The slopes weighted anew by how far they are off: what spans differ beyond their own errors counts for all of them. */
function weighted(observed: readonly Observed[], fitted: Fitted, given: FitGiven): Observed[] {
  const off = observed.map((one) => one.slope - modelled(one, fitted, given));
  const beyond = {
    'carbon-dioxide': beyondErrors(observed, off, 'carbon-dioxide'),
    oxygen: beyondErrors(observed, off, 'oxygen'),
  };
  return observed.map((one, index) => {
    const variance = one.error ** 2 + beyond[one.gas];
    const far = (off[index] ?? 0) / Math.sqrt(variance) / BIWEIGHT;
    const fits = Math.abs(far) < 1 ? (1 - far ** 2) ** 2 : 0;
    return { ...one, fits, weight: fits / variance };
  });
}

/** The variance between spans that makes the middle of the squared deviations what it should be; 0 where none is needed. */
function beyondErrors(observed: readonly Observed[], off: readonly number[], gas: Gas): number {
  const ofGas = observed.flatMap((one, index) =>
    one.gas === gas ? [{ variance: one.error ** 2, square: (off[index] ?? 0) ** 2 }] : [],
  );
  const middle = (beyond: number) =>
    median(ofGas.map(({ variance, square }) => square / (variance + beyond)));
  if (ofGas.length < 3 || middle(0) <= MEDIAN_SQUARE) return 0;
  let [low, high] = [0, Math.max(...ofGas.map(({ square }) => square)) / MEDIAN_SQUARE];
  for (let step = 0; step < 40; step++) {
    const beyond = (low + high) / 2;
    if (middle(beyond) > MEDIAN_SQUARE) low = beyond;
    else high = beyond;
  }
  return (low + high) / 2;
}

/** Half the width of a 95 % interval, from how far rests differ. */
export interface Spread {
  readonly share: number;
  readonly exchange: number;
  /** Stretches of the record that count as independent. */
  readonly stretches: number;
}

/**
 * From what each rest pulls at the fit, in the order of time: what lasts longer than a rest (weather, a sensor that
 * wanders) counts as often as it came. Student's t with the degrees of freedom of the long-run spread.
 */
export function spreadOf({ observed, ...fitted }: FitResult, given: FitGiven): Spread {
  const start = unknownsOf(fitted, given);
  const information = Matrix.zeros(start.length, start.length);
  const pulls = new Map<RestingSpan, Float64Array>();
  for (const one of observed) {
    if (one.weight === 0) continue;
    const gradient = gradientOf(one, start, given);
    const off = one.slope - modelled(one, fitted, given);
    const pull = pulls.get(one.reference.span) ?? new Float64Array(start.length);
    pulls.set(one.reference.span, pull);
    gradient.forEach((along, row) => {
      pull[row] = (pull[row] ?? 0) + one.weight * along * off;
      gradient.forEach((across, column) => {
        information.set(row, column, information.get(row, column) + one.weight * along * across);
      });
    });
  }
  const swing = heldBy(fitted);
  for (let part = 2; part < start.length; part++)
    information.set(part, part, information.get(part, part) + swing);
  const inOrder = [...pulls].sort(([a], [b]) => a.from - b.from).map(([, pull]) => pull);
  const { covariance, degrees } = longRun(inOrder, Math.min(2, start.length));
  const isKnown = information.diagonal().every((value) => value > 0) && rank(information) === start.length;
  if (degrees < 1 || !isKnown)
    return { share: Number.POSITIVE_INFINITY, exchange: Number.POSITIVE_INFINITY, stretches: degrees };
  const inverted = inverse(information);
  const pulled = new Matrix(covariance.map((row) => [...row]));
  for (let part = 2; part < start.length; part++) pulled.set(part, part, pulled.get(part, part) + swing);
  const spread = inverted.mmul(pulled).mmul(inverted);
  const times = studentT(STATED_CHANCE, degrees);
  // No less than the slopes' own errors leave open: few stretches may happen to agree.
  const half = (unknown: number) =>
    times * Math.sqrt(Math.max(spread.get(unknown, unknown), inverted.get(unknown, unknown)));
  return {
    share: half(0),
    exchange: start.length > 1 ? SCALE * half(1) : 0,
    stretches: degrees + 1,
  };
}

function rank(matrix: Matrix): number {
  return new SingularValueDecomposition(matrix).rank;
}

function gradientOf(one: Observed, at: readonly number[], given: FitGiven): number[] {
  const step = 1e-4;
  const slope = (unknown: number, by: number) =>
    modelled(one, fittedOf(at.with(unknown, (at[unknown] ?? 0) + by), given), given);
  return at.map((_, unknown) => (slope(unknown, step) - slope(unknown, -step)) / (2 * step));
}
