import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { inverse, Matrix, SingularValueDecomposition } from 'ml-matrix';
import { AIR } from '../room/course/state';
import { STATED_CHANCE } from './assumptions';
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

export interface FitResult {
  /** Respiration as a share of the reference. */
  readonly share: number;
  /** Volumes of the room's gas that air exchanges in an hour. */
  readonly exchange: number;
  readonly observed: readonly Observed[];
}

/** A slope of one gas in one span, per cent an hour. */
export interface Observed {
  readonly reference: SpanReference;
  readonly gas: Gas;
  readonly slope: number;
  readonly error: number;
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
  let fitted: Fitted = { share: 1, exchange: given.exchange ?? SCALE };
  for (let round = 0; round < ROUNDS; round++) {
    fitted = leastSquares(observed, given, fitted);
    observed = weighted(observed, fitted, given);
  }
  return { ...fitted, observed };
}

export interface Fitted {
  readonly share: number;
  readonly exchange: number;
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
    const one = (gas: Gas, slope: number, error: number): Observed => ({
      reference,
      gas,
      slope,
      error,
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

function modelled({ reference, gas }: Observed, { share, exchange }: Fitted, given: FitGiven): number {
  const slopes = slopesOf(reference, share * given.referenceFactor, exchange, given.oxygenFactor);
  return gas === 'oxygen' ? slopes.oxygen : slopes.carbonDioxide;
}

/** Slopes and model are both multiplied by the root of the weight: the library then needs none. */
function leastSquares(observed: readonly Observed[], given: FitGiven, from: Fitted): Fitted {
  const roots = observed.map(({ weight }) => Math.sqrt(weight));
  const fittedOf = ([share = 0, exchange = 0]: readonly number[]): Fitted => ({
    share,
    exchange: given.exchange ?? exchange * SCALE,
  });
  const { parameterValues } = levenbergMarquardt(
    {
      x: observed.map((_, index) => index),
      y: observed.map(({ slope }, index) => slope * (roots[index] ?? 0)),
    },
    (parameters) => (index) => {
      const one = observed[index];
      return one ? modelled(one, fittedOf(parameters), given) * (roots[index] ?? 0) : 0;
    },
    {
      initialValues: given.exchange === undefined ? [from.share, from.exchange / SCALE] : [from.share],
      gradientDifference: 1e-4,
      centralDifference: true,
      damping: 1e-6,
      // All but straight in both unknowns, and each round goes on where the last one ended.
      maxIterations: 2,
      errorTolerance: 0,
    },
  );
  return fittedOf(parameterValues);
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

/** Half the width of a 95 % interval, from how far blocks of spans differ. */
export interface Spread {
  readonly share: number;
  readonly exchange: number;
  readonly blocks: number;
}

/**
 * From the sums of what each block of spans pulls at the fit, so that whatever lasts longer than a span (weather, a
 * sensor that wanders) counts as often as it came; Student's t with a degree of freedom for each block less the unknowns.
 */
export function spreadOf(
  { share, exchange, observed }: FitResult,
  given: FitGiven,
  blockOf: (span: RestingSpan) => number,
): Spread {
  const unknowns = given.exchange === undefined ? 2 : 1;
  const information = Matrix.zeros(unknowns, unknowns);
  const pulls = new Map<number, Float64Array>();
  for (const one of observed) {
    const gradient = gradientOf(one, { share, exchange }, given).slice(0, unknowns);
    const off = one.slope - modelled(one, { share, exchange }, given);
    const block = blockOf(one.reference.span);
    const pull = pulls.get(block) ?? new Float64Array(unknowns);
    pulls.set(block, pull);
    for (let row = 0; row < unknowns; row++) {
      pull[row] = (pull[row] ?? 0) + one.weight * (gradient[row] ?? 0) * off;
      for (let column = 0; column < unknowns; column++) {
        const sum = information.get(row, column);
        information.set(row, column, sum + one.weight * (gradient[row] ?? 0) * (gradient[column] ?? 0));
      }
    }
  }
  const blocks = [...pulls.values()].filter((pull) => pull.some((value) => value !== 0)).length;
  const degrees = blocks - unknowns;
  const isKnown = information.diagonal().every((value) => value > 0) && rank(information) === unknowns;
  if (degrees < 1 || !isKnown)
    return { share: Number.POSITIVE_INFINITY, exchange: Number.POSITIVE_INFINITY, blocks };
  const inverted = inverse(information);
  let [shareSquare, exchangeSquare] = [0, 0];
  for (const pull of pulls.values()) {
    const moved = inverted.mmul(Matrix.columnVector([...pull]));
    shareSquare += moved.get(0, 0) ** 2;
    exchangeSquare += unknowns > 1 ? moved.get(1, 0) ** 2 : 0;
  }
  const grown = blocks / degrees;
  const times = studentT(STATED_CHANCE, degrees);
  // No less than the slopes' own errors leave open: few blocks may happen to agree.
  return {
    share: times * Math.sqrt(Math.max(grown * shareSquare, inverted.get(0, 0))),
    exchange: times * Math.sqrt(Math.max(grown * exchangeSquare, unknowns > 1 ? inverted.get(1, 1) : 0)),
    blocks,
  };
}

function rank(matrix: Matrix): number {
  return new SingularValueDecomposition(matrix).rank;
}

function gradientOf(one: Observed, { share, exchange }: Fitted, given: FitGiven): number[] {
  const [byShare, byExchange] = [1e-4, 1e-4 * SCALE];
  const slope = (here: Fitted) => modelled(one, here, given);
  return [
    (slope({ share: share + byShare, exchange }) - slope({ share: share - byShare, exchange })) /
      (2 * byShare),
    (slope({ share, exchange: exchange + byExchange }) - slope({ share, exchange: exchange - byExchange })) /
      (2 * byExchange),
  ];
}
