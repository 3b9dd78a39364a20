import { normalChance } from '../keeping/normal';
import type { RoomReadings } from '../readings/types';
import { AIR } from '../room/course/state';
import {
  calibrationError,
  highestQuotient,
  leakByTestFactor,
  lowestQuotient,
  STATED_CHANCE,
  STATED_DEVIATIONS,
  sensorDriftAMonth,
} from './assumptions';
import {
  asRead,
  type FitGiven,
  type FitResult,
  fitGas,
  refitted,
  type SpanReference,
  spreadOf,
} from './fit-gas';
import { leapsUp } from './let-in';
import { candidateSpans, type Screened, screened } from './resting';
import { median, quantile, slopeOffByRounding } from './screen';
import type { Interval, IntervalPart, RestingSpan } from './types';

/** What the fit needs to know of a room beside its readings. */
export interface RoomGas {
  /** Free gas of the room as filled. */
  readonly gasVolumeM3: number;
  /** When its gas was set, and when it opens: minutes as the readings have them. */
  readonly from: number;
  readonly to: number;
  /** Carbon dioxide made and oxygen used, by the plan's reference, m3/h at the room's temperature. */
  readonly reference: (hours: number, oxygen: number, carbonDioxide: number) => FruitGas;
  /** Air that leaks and weather exchange by the pressure test, m3/h. */
  readonly exchangeByTest: number;
  /** The regime's oxygen: what a room without readings of oxygen is taken to hold. */
  readonly oxygen: number;
  /** True where the quotient is the planner's own and not the built-in one. */
  readonly quotientMeasured: boolean;
}

export interface FruitGas {
  readonly carbonDioxide: number;
  readonly oxygen: number;
}

/** Respiration and leakage of a room, fitted to its readings. */
export interface FittedGas {
  /** Respiration as a share of what the plan reckons with. */
  readonly respiration: Interval;
  readonly respirationParts: readonly IntervalPart[];
  /** Air that leaks and weather exchange, m3/h; absent where oxygen tells nothing of it. */
  readonly exchange: Interval | undefined;
  readonly exchangeParts: readonly IntervalPart[];
  readonly whyNoExchange: 'no oxygen' | 'oxygen held' | undefined;
  readonly fit: FitResult;
  readonly given: FitGiven;
  readonly spans: readonly SpanReference[];
  /** Stretches of the record that count as independent. */
  readonly stretches: number;
  readonly spikes: number;
}

/** Why nothing can be told of a room. */
export type NotFitted = 'no carbon dioxide' | 'nothing rests' | 'too few spans';

const HOURS_A_MONTH = 24 * 30.4375;
const FEWEST_SPANS = 4;
/** Below this share of what the fruit should give off, carbon dioxide does not climb as in a room at rest. */
const LEAST_SHARE = 0.25;
/** Of the climb of the spans at rest, below which a span is not at rest. */
const NOT_AT_REST = 0.5;
/** Of the fall that the fruit should make, within which oxygen stands still; and how near to one level. */
const STANDS_STILL = 0.2;

/** Respiration and leakage from the readings of a sealed room, or why not. */
export function fitRoomGas(readings: RoomReadings, room: RoomGas): FittedGas | NotFitted {
  const rows = screened(readings, room.from, room.to);
  if (rows.hours.length === 0) return 'no carbon dioxide';
  const candidates = candidateSpans(rows).map((span) => referenceOf(span, room));
  const spans = atRest(candidates, room);
  if (spans.length === 0) return 'nothing rests';
  if (spans.length < FEWEST_SPANS) return 'too few spans';
  return fitSpans(spans, rows, room);
}

function referenceOf(span: RestingSpan, room: RoomGas): SpanReference {
  const { carbonDioxide, oxygen } = span;
  const made = room.reference(carbonDioxide.at, oxygen?.level ?? room.oxygen, carbonDioxide.level);
  return {
    span,
    carbonDioxide: (100 * made.carbonDioxide) / room.gasVolumeM3,
    oxygen: (100 * made.oxygen) / room.gasVolumeM3,
  };
}

/**
 * Spans that climb as those do that climb most: where a scrubber takes part of what the fruit gives off, they climb far
 * less. None where even the steepest climb is far from what fruit gives off.
 */
function atRest(
  candidates: readonly SpanReference[],
  { exchangeByTest, gasVolumeM3 }: RoomGas,
): SpanReference[] {
  const share = ({ span, carbonDioxide }: SpanReference) =>
    (span.carbonDioxide.slope + (exchangeByTest / gasVolumeM3) * span.carbonDioxide.level) / carbonDioxide;
  const error = ({ span, carbonDioxide }: SpanReference) => span.carbonDioxide.slopeError / carbonDioxide;
  const sharp = candidates.filter((one) => error(one) < 0.3);
  const usual = quantile((sharp.length >= FEWEST_SPANS ? sharp : candidates).map(share), 0.75);
  if (!(usual > LEAST_SHARE)) return [];
  return candidates.filter((one) => share(one) + 2.5 * error(one) > NOT_AT_REST * usual);
}

function fitSpans(spans: readonly SpanReference[], rows: Screened, room: RoomGas): FittedGas | NotFitted {
  const whyNoExchange = whyNone(spans, rows);
  const byTest = room.exchangeByTest / room.gasVolumeM3;
  // What a valve lets in is exchange too: it is fitted, though it tells nothing of the leak.
  const given: FitGiven =
    whyNoExchange === 'no oxygen'
      ? { ...asRead, exchange: byTest }
      : { ...asRead, oxygenFactor: middleOxygenFactor(room) };
  const fit = fitGas(spans, given);
  if (!fit) return 'too few spans';
  const spread = spreadOf(fit, given);
  if (!Number.isFinite(spread.share)) return 'too few spans';
  const volume = room.gasVolumeM3;
  const others = otherways(given, room, fit, spans, rows).map(({ cause, given: other }) => {
    const moved = refitted(fit, other);
    return { cause, share: moved.share - fit.share, exchange: (moved.exchange - fit.exchange) * volume };
  });
  const between = (half: number) => ({ cause: 'between spans' as const, below: half, above: half });
  const respirationParts = partsOf(between(spread.share), others, ({ share }) => share);
  const exchangeParts = partsOf(between(spread.exchange * volume), others, ({ exchange }) => exchange);
  return {
    respiration: intervalOf(fit.share, respirationParts),
    respirationParts,
    exchange: whyNoExchange ? undefined : intervalOf(fit.exchange * volume, exchangeParts),
    exchangeParts: whyNoExchange ? [] : exchangeParts,
    whyNoExchange,
    fit,
    given,
    spans,
    stretches: spread.stretches,
    spikes: rows.spikes,
  };
}

/**
 * Oxygen that stands at one level while carbon dioxide climbs is held there by a valve, and one that leaps up within the
 * rests is held near it: neither tells of leaks.
 */
function whyNone(spans: readonly SpanReference[], rows: Screened): FittedGas['whyNoExchange'] {
  const read = spans.flatMap(({ span: { oxygen }, oxygen: used }) => (oxygen ? [{ oxygen, used }] : []));
  if (read.length < Math.max(FEWEST_SPANS, spans.length / 4)) return 'no oxygen';
  const still = read.filter(
    ({ oxygen, used }) => Math.abs(oxygen.slope) < STANDS_STILL * used + oxygen.slopeError,
  );
  const levels = still.map(({ oxygen }) => oxygen.level);
  const isOneLevel = quantile(levels, 0.9) - quantile(levels, 0.1) < 0.1;
  if (still.length > read.length / 2 && isOneLevel) return 'oxygen held';
  return leapsUp(
    rows,
    spans.map(({ span }) => span),
  )
    ? 'oxygen held'
    : undefined;
}

interface Otherwise {
  readonly cause: Exclude<IntervalPart['cause'], 'between spans'>;
  readonly given: FitGiven;
}

/** The same fit with each thing that is taken for granted at either end of what it may be. */
function otherways(
  given: FitGiven,
  room: RoomGas,
  { share }: FitResult,
  spans: readonly SpanReference[],
  rows: Screened,
): Otherwise[] {
  const drift = sensorDriftAMonth.value / HOURS_A_MONTH;
  const gain = calibrationError.value;
  const both = (cause: Otherwise['cause'], change: (side: 1 | -1) => Partial<FitGiven>): Otherwise[] =>
    ([1, -1] as const).map((side) => ({ cause, given: { ...given, ...change(side) } }));
  const leak = leakByTestFactor.value;
  const byTest = room.exchangeByTest / room.gasVolumeM3;
  const { oxygen } = room;
  const rate = (at: number) => room.reference(room.from / 60 + 24 * 30, at, 1).carbonDioxide;
  // Between two checks a month apart a sensor is off by half of its drift on average.
  const off = sensorDriftAMonth.value / 2;
  const lasts = median(spans.map(({ span }) => (span.to - span.from) / 60));
  const rounded = slopeOffByRounding(rows.carbonDioxideNoise, lasts);
  const oxygenRounded = slopeOffByRounding(rows.oxygenNoise, lasts);
  return [
    ...both('coarse steps', (side) => ({ carbonDioxideDrift: side * rounded })),
    ...both('sensor drift', (side) => ({ carbonDioxideDrift: side * drift })),
    ...both('sensor drift', (side) => ({ referenceFactor: rate(oxygen + side * off) / rate(oxygen) })),
    ...both('calibration', (side) => ({ referenceFactor: rate(oxygen * (1 + side * gain)) / rate(oxygen) })),
    ...both('calibration', (side) => ({ carbonDioxideGain: 1 + side * gain })),
    ...(given.exchange === undefined
      ? [
          ...both('coarse steps', (side) => ({ oxygenDrift: side * oxygenRounded })),
          ...both('sensor drift', (side) => ({ oxygenDrift: side * drift })),
          ...both('calibration', (side) => ({ oxygenGain: 1 + side * gain })),
          ...(room.quotientMeasured ? [] : quotients(given, room)),
        ]
      : both('leak', (side) => ({
          exchange: side < 0 ? byTest / leak : Math.max(byTest * leak, share * holdingExchange(spans, room)),
        }))),
  ];
}

/** What would have to come in to hold oxygen, volumes an hour, were it used as by the reference: valves let it in. */
function holdingExchange(spans: readonly SpanReference[], { oxygen }: RoomGas): number {
  return median(spans.map((one) => one.oxygen)) / (100 * AIR.oxygen - oxygen);
}

function quotients(given: FitGiven, room: RoomGas): Otherwise[] {
  return oxygenFactors(room).map((oxygenFactor) => ({
    cause: 'respiratory quotient',
    given: { ...given, oxygenFactor },
  }));
}

/** The reference's oxygen used, as a factor, at either end of what the quotient may be. */
function oxygenFactors(room: RoomGas): readonly [most: number, least: number] {
  const { carbonDioxide, oxygen } = room.reference(room.from / 60 + 24 * 30, room.oxygen, 1);
  const own = carbonDioxide / oxygen;
  return [own / lowestQuotient.value, own / highestQuotient.value];
}

/**
 * Where the fit is made: a built-in quotient is not in the middle of its range, and a fit made there would not be in the
 * middle of its own interval.
 */
function middleOxygenFactor(room: RoomGas): number {
  const [most, least] = oxygenFactors(room);
  return room.quotientMeasured ? asRead.oxygenFactor : (most + least) / 2;
}

/** Each cause's part, the same cause more than once added as independent of one another. */
function partsOf(
  between: IntervalPart,
  others: readonly {
    readonly cause: IntervalPart['cause'];
    readonly share: number;
    readonly exchange: number;
  }[],
  of: (moved: { readonly share: number; readonly exchange: number }) => number,
): IntervalPart[] {
  const parts = new Map<IntervalPart['cause'], { below: number; above: number }>();
  for (const other of others) {
    const part = parts.get(other.cause) ?? { below: 0, above: 0 };
    const moved = of(other);
    parts.set(other.cause, {
      below: Math.hypot(part.below, Math.min(0, moved)),
      above: Math.hypot(part.above, Math.max(0, moved)),
    });
  }
  const range = parts.get(QUOTIENT);
  if (range) parts.set(QUOTIENT, alone(range));
  return [between, ...[...parts].map(([cause, part]) => ({ cause, ...part }))];
}

const QUOTIENT = 'respiratory quotient';

/** Of what is anywhere within a range, its middle as likely as its ends: the limits of 95 times in 100, about its middle. */
function alone({ below, above }: { readonly below: number; readonly above: number }) {
  const half = (STATED_CHANCE * (below + above)) / 2;
  return { below: half, above: half };
}

/**
 * What is independent adds up by squares; the quotient may be anywhere within its range, the middle as likely as its
 * ends. No leak and no respiration are less than nothing.
 */
function intervalOf(value: number, parts: readonly IntervalPart[]): Interval {
  const range = parts.find(({ cause }) => cause === QUOTIENT) ?? { below: 0, above: 0 };
  const [down, up] = [range.below / STATED_CHANCE, range.above / STATED_CHANCE];
  const rest = parts.filter(({ cause }) => cause !== QUOTIENT);
  const outside = (1 - STATED_CHANCE) / 2;
  const below = Math.hypot(...rest.map((part) => part.below)) / STATED_DEVIATIONS;
  const above = Math.hypot(...rest.map((part) => part.above)) / STATED_DEVIATIONS;
  return {
    value: Math.max(0, value),
    low: Math.max(0, value + spreadQuantile(outside, -down, up, below)),
    high: Math.max(0, value + spreadQuantile(1 - outside, -down, up, above)),
  };
}

/** Where a chance lies of what is anywhere from `low` to `high` and spread normally about that; by bisection. */
function spreadQuantile(chance: number, low: number, high: number, deviation: number): number {
  if (!(deviation > 0)) return low + chance * (high - low);
  const reach = 12 * deviation;
  const area = (z: number) => z * normalChance(z) + Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
  const chanceBelow = (x: number) =>
    high - low > 1e-9 * deviation
      ? (deviation / (high - low)) * (area((x - low) / deviation) - area((x - high) / deviation))
      : normalChance((x - low) / deviation);
  let [from, to] = [low - reach, high + reach];
  for (let step = 0; step < 60; step++) {
    const middle = (from + to) / 2;
    if (chanceBelow(middle) < chance) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}
