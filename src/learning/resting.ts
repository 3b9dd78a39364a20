import type { RoomReadings } from '../readings/types';
import { median, type Noise, noiseOf, quantile, withoutSpikes } from './screen';
import { lineThrough } from './span-line';
import type { Line, RestingSpan } from './types';

/**
 * Finding the stretches in which a room is left to itself, from the readings alone: carbon dioxide climbs and nothing
 * makes it fall, oxygen is not let in. Neither the plan nor the controller's record says when that was.
 *
 * Three steps, each over the readings once: cuts where carbon dioxide falls or oxygen rises at a stroke, or where the
 * record has a gap; of each piece, further cuts where a straight line with a step fits far better than one without;
 * what is long enough is a candidate, without the readings next to a cut, in whose interval the change fell.
 */

/** Shortest stretch that is used, hours and readings; the longest, after which a new one begins. */
const SHORTEST_HOURS = 6;
const FEWEST_READINGS = 6;
const LONGEST_HOURS = 60;
/** A gap in the record: so many hours, or so many usual intervals. */
const GAP_HOURS = 3;
const GAP_INTERVALS = 3;
/** Standard errors at which a fall of carbon dioxide, or a rise of oxygen, is no noise. */
const CUT_AT = 4;
/** What fruit does in the same time, so many times over: weather does less, and valves do more. */
const CUT_AT_CLIMBS = 2;
/** Of the usual climb of carbon dioxide: how far wind and weather change slopes from hour to hour. */
const WEATHER = 0.25;
const STEP_AT = 4.5;
const STEP_AT_USUAL = 4;
const ROUNDS = 3;
const FEWEST_STRAIGHT = 5;
/** How far around a row its step is looked for: hours either side, or so many readings where that is more. */
const HOURS_AROUND = 10;
const FEWEST_AROUND = 6;
const ROWS_NEAR = 1;
const HOURS_NEAR = 1.4;
/** Standard errors by which a line's scatter may be above the noise. */
const SCATTER_AT = 3;
/** The standard error of the difference of two medians of three, in deviations of one reading. */
const OF_MEDIANS = 0.67 * Math.SQRT2;
/** A chance so small that no live sensor repeats itself as often by it. */
const NO_LIVE_SENSOR = 1e-4;

/** The readings of a room as the fit takes them: hours since 1970, spikes out. */
export interface Screened {
  readonly hours: Float64Array;
  readonly carbonDioxide: Float64Array;
  /** NaN throughout where it was not read. */
  readonly oxygen: Float64Array;
  readonly carbonDioxideNoise: Noise;
  readonly oxygenNoise: Noise;
  /** Share of the readings of oxygen that are the same as the one before. */
  readonly oxygenRepeats: number;
  readonly spikes: number;
}

/** The readings from one minute to another with carbon dioxide in them, spikes taken out. */
export function screened({ times, values }: RoomReadings, from: number, to: number): Screened {
  const rows: number[] = [];
  for (let index = 0; index < times.length; index++) {
    const time = times[index] ?? 0;
    if (time >= from && time <= to && !Number.isNaN(values['carbon-dioxide'][index])) rows.push(index);
  }
  const pick = (column: ArrayLike<number>) => Float64Array.from(rows, (row) => column[row] ?? Number.NaN);
  const [gas, air] = [pick(values['carbon-dioxide']), pick(values.oxygen)];
  const [carbonDioxideNoise, oxygenNoise] = [noiseOf(gas), noiseOf(air)];
  const carbonDioxide = withoutSpikes(gas, carbonDioxideNoise.deviation);
  const oxygen = withoutSpikes(air, oxygenNoise.deviation);
  const { repeated, pairs } = repeatsOf(oxygen, 0, oxygen.length);
  return {
    hours: Float64Array.from(rows, (row) => (times[row] ?? 0) / 60),
    carbonDioxide,
    oxygen,
    carbonDioxideNoise,
    oxygenNoise,
    oxygenRepeats: pairs === 0 ? 0 : repeated / pairs,
    spikes: missing(carbonDioxide) - missing(gas) + missing(oxygen) - missing(air),
  };
}

function missing(values: Float64Array): number {
  return values.reduce((count, value) => count + (Number.isNaN(value) ? 1 : 0), 0);
}

/** Candidates, earliest first; which of them are truly at rest the fit says, by how steeply they climb. */
export function candidateSpans(readings: Screened): RestingSpan[] {
  let pieces = cutPieces(readings).flatMap((piece) => withoutSteps(readings, piece, undefined));
  pieces = pieces.flatMap((piece) => inParts(readings, piece));
  for (let round = 0; round < ROUNDS; round++) {
    const usual = usualSlopes(pieces.flatMap((piece) => spanOf(readings, piece) ?? []));
    pieces = pieces.flatMap((piece) => withoutSteps(readings, piece, usual));
  }
  return pieces
    .flatMap((piece) => spanOf(readings, piece) ?? [])
    .filter(({ carbonDioxide }) => isStraight(carbonDioxide))
    .map((span) => (span.oxygen && !isStraight(span.oxygen) ? { ...span, oxygen: undefined } : span));
}

/** Whether the readings scatter about the line no more than the sensor's noise lets them. */
function isStraight({ scatter, count }: Line): boolean {
  return scatter ** 2 < 1 + SCATTER_AT * Math.sqrt(2 / (count - 2));
}

/** What most spans do: per cent an hour, and by how much they differ beyond their noise. */
interface UsualSlopes {
  readonly carbonDioxide: UsualSlope;
  readonly oxygen: UsualSlope;
}
interface UsualSlope {
  readonly slope: number;
  readonly differs: number;
}

/**
 * Whatever was overlooked in a span makes carbon dioxide climb less and oxygen fall less. So what spans do that hold
 * nothing of it, and how far they differ, is read off the steep end: of a normal distribution the steepest twentieth and
 * quarter lie a standard deviation apart.
 */
function usualSlopes(spans: readonly RestingSpan[]): UsualSlopes {
  const gas = usualSlope(
    spans.map(({ carbonDioxide }) => carbonDioxide),
    1,
  );
  const air = usualSlope(
    spans.flatMap(({ oxygen }) => oxygen ?? []),
    -1,
  );
  const weather = WEATHER * Math.abs(gas.slope);
  return { carbonDioxide: gas, oxygen: { ...air, differs: Math.max(air.differs, weather) } };
}

function usualSlope(lines: readonly Line[], steep: 1 | -1): UsualSlope {
  const straight = lines.filter(isStraight);
  const fitting = straight.length >= FEWEST_STRAIGHT ? straight : lines;
  const error = median(fitting.map(({ slopeError }) => slopeError));
  const slopes = fitting
    .filter(({ slopeError }) => slopeError <= 1.5 * error)
    .map(({ slope }) => steep * slope);
  const [quarter, twentieth] = [quantile(slopes, 0.75), quantile(slopes, 0.95)];
  const scatter = twentieth - quarter;
  // Between the quarter itself, where most spans hold something, and the middle, where none does.
  return {
    slope: steep * (quarter - 0.3 * scatter),
    differs: Math.sqrt(Math.max(0, scatter ** 2 - error ** 2)),
  };
}

/** Rows from `first` up to but without `end`. */
interface Piece {
  readonly first: number;
  readonly end: number;
}

function cutPieces(readings: Screened): Piece[] {
  const { hours } = readings;
  const climb = Math.abs(usualDifference(readings.carbonDioxide));
  const falls = strokes(readings.carbonDioxide, readings.carbonDioxideNoise.deviation, climb);
  const rises = strokes(readings.oxygen, readings.oxygenNoise.deviation, climb);
  const gap = Math.max(GAP_HOURS, GAP_INTERVALS * usualInterval(hours));
  const isStroke = (row: number) => falls[row] === 1 || rises[row] === 1;
  const pieces: Piece[] = [];
  let first = 0;
  for (let row = 1; row <= hours.length; row++) {
    const isGap = row === hours.length || (hours[row] ?? 0) - (hours[row - 1] ?? 0) > gap;
    if (!isGap && !isStroke(row)) continue;
    pieces.push({
      first: isStroke(first) ? afterChange(hours, first) : first,
      end: isStroke(row) ? beforeChange(hours, row) : row,
    });
    first = row;
  }
  return pieces.filter((piece) => isLong(readings, piece));
}

/** The readings near a change have part of it in them: the first row that is free of it again, and the last one's end. */
function afterChange(hours: Float64Array, row: number): number {
  let free = row + ROWS_NEAR;
  while (free < hours.length && (hours[free] ?? 0) - (hours[row] ?? 0) < HOURS_NEAR) free++;
  return free;
}

function beforeChange(hours: Float64Array, row: number): number {
  let end = row - ROWS_NEAR;
  while (end > 0 && (hours[row] ?? 0) - (hours[end - 1] ?? 0) < HOURS_NEAR) end--;
  return end;
}

function usualInterval(hours: Float64Array): number {
  return hours.length < 2 ? 0 : median(hours.slice(1).map((at, index) => at - (hours[index] ?? 0)));
}

/**
 * Rows at which a value goes up or down at a stroke: the median of the three from there on against the median of the
 * three before, off the usual difference of such medians by more than noise, and by more than wind and weather do, which
 * is less than what fruit does in the same time.
 */
function strokes(values: Float64Array, noise: number, climb: number): Uint8Array {
  const differences = differencesOf(values);
  const usual = medianOfRead(differences);
  const beyond = Math.max(CUT_AT * OF_MEDIANS * noise, CUT_AT_CLIMBS * climb);
  return Uint8Array.from(differences, (difference) => (Math.abs(difference - usual) > beyond ? 1 : 0));
}

function differencesOf(values: Float64Array): Float64Array {
  const differences = new Float64Array(values.length).fill(Number.NaN);
  for (let row = 3; row + 2 < values.length; row++)
    differences[row] =
      middle(values[row], values[row + 1], values[row + 2]) -
      middle(values[row - 3], values[row - 2], values[row - 1]);
  return differences;
}

function usualDifference(values: Float64Array): number {
  return medianOfRead(differencesOf(values));
}

function medianOfRead(values: Float64Array): number {
  return median(values.filter((value) => !Number.isNaN(value)));
}

/** The middle one of three; of those that were read. */
function middle(a = Number.NaN, b = Number.NaN, c = Number.NaN): number {
  if (Number.isNaN(a + b + c)) {
    const read = [a, b, c].filter((value) => !Number.isNaN(value));
    return read.reduce((sum, value) => sum + value, 0) / read.length;
  }
  return Math.max(Math.min(a, b), Math.min(Math.max(a, b), c));
}

function isLong({ hours }: Screened, { first, end }: Piece): boolean {
  const lasts = (hours[end - 1] ?? 0) - (hours[first] ?? 0);
  return end - first >= FEWEST_READINGS && lasts >= SHORTEST_HOURS;
}

/**
 * The piece cut where a step stands out from a straight line: from any line at first, then, more sharply, from a line as
 * steep as spans usually are.
 */
function withoutSteps(readings: Screened, piece: Piece, usual: UsualSlopes | undefined): Piece[] {
  if (!isLong(readings, piece)) return [];
  const { hours, carbonDioxide, oxygen, carbonDioxideNoise, oxygenNoise } = readings;
  const ofGas = stepIn(hours, carbonDioxide, piece, carbonDioxideNoise.deviation, usual?.carbonDioxide);
  const ofAir = stepIn(hours, oxygen, piece, oxygenNoise.deviation, usual?.oxygen);
  const step = ofGas && ofAir ? (ofGas.size >= ofAir.size ? ofGas : ofAir) : (ofGas ?? ofAir);
  if (!step) return [piece];
  return [
    ...withoutSteps(readings, { first: piece.first, end: beforeChange(hours, step.row) }, usual),
    ...withoutSteps(readings, { first: afterChange(hours, step.row), end: piece.end }, usual),
  ];
}

interface Step {
  readonly row: number;
  readonly size: number;
}

/**
 * The row before which a step stands out most from what is around it, and its size in standard errors; undefined where
 * none does. Around each row a straight line either side, both of one slope: the usual one, or whichever fits. By
 * running sums.
 */
function stepIn(
  hours: Float64Array,
  values: Float64Array,
  { first, end }: Piece,
  noise: number,
  usual: UsualSlope | undefined,
): Step | undefined {
  if (noise === 0 || (usual && !Number.isFinite(usual.slope))) return undefined;
  const sums = runningSums(hours, values, first, end);
  const [fewest, beyond, around] = usual ? [1, STEP_AT_USUAL, HOURS_AROUND / 2] : [3, STEP_AT, HOURS_AROUND];
  let best: Step | undefined;
  let [from, to] = [first, first];
  for (let row = first + 1; row < end; row++) {
    const at = hours[row] ?? 0;
    while (from < row - FEWEST_AROUND && at - (hours[from] ?? 0) > around) from++;
    while (to < end && (to < row + FEWEST_AROUND || (hours[to] ?? 0) - at <= around)) to++;
    const [before, after] = [
      between(sums, from - first, row - first),
      between(sums, row - first, to - first),
    ];
    if (before.count < fewest || after.count < fewest) continue;
    const size = Math.abs(stepSize(before, after, noise, usual));
    if (size > beyond && size > (best?.size ?? 0)) best = { row, size };
  }
  return best;
}

/** What so many readings add up to, hours from the piece's first. */
interface Sums {
  readonly count: number;
  readonly hours: number;
  readonly values: number;
  readonly squares: number;
  readonly products: number;
}

function stepSize(before: Sums, after: Sums, noise: number, usual: UsualSlope | undefined): number {
  const spread = ownSquares(before) + ownSquares(after);
  const together = ownProducts(before) + ownProducts(after);
  if (!usual && !(spread > 1e-9)) return 0;
  const apart = after.hours / after.count - before.hours / before.count;
  const slope = usual ? usual.slope : together / spread;
  const step = after.values / after.count - before.values / before.count - slope * apart;
  const ofSlope = usual ? (usual.differs * apart) ** 2 : (noise * apart) ** 2 / spread;
  return step / Math.sqrt(noise ** 2 * (1 / before.count + 1 / after.count) + ofSlope);
}

/** Of hours about their own mean, and of hours with values. */
function ownSquares({ count, hours, squares }: Sums): number {
  return squares - (hours * hours) / count;
}

function ownProducts({ count, hours, values, products }: Sums): number {
  return products - (hours * values) / count;
}

/** For each row of a piece, and its end, the sums of all before it: five numbers a row. */
function runningSums(hours: Float64Array, values: Float64Array, first: number, end: number): Float64Array {
  const sums = new Float64Array(5 * (end - first + 1));
  const origin = hours[first] ?? 0;
  for (let row = first; row < end; row++) {
    const value = values[row] ?? Number.NaN;
    const read = Number.isNaN(value) ? 0 : 1;
    const since = read * ((hours[row] ?? 0) - origin);
    const shown = read === 1 ? value : 0;
    const at = 5 * (row - first);
    sums[at + 5] = (sums[at] ?? 0) + read;
    sums[at + 6] = (sums[at + 1] ?? 0) + since;
    sums[at + 7] = (sums[at + 2] ?? 0) + shown;
    sums[at + 8] = (sums[at + 3] ?? 0) + since * since;
    sums[at + 9] = (sums[at + 4] ?? 0) + since * shown;
  }
  return sums;
}

function between(sums: Float64Array, from: number, to: number): Sums {
  const [low, high] = [5 * from, 5 * to];
  return {
    count: (sums[high] ?? 0) - (sums[low] ?? 0),
    hours: (sums[high + 1] ?? 0) - (sums[low + 1] ?? 0),
    values: (sums[high + 2] ?? 0) - (sums[low + 2] ?? 0),
    squares: (sums[high + 3] ?? 0) - (sums[low + 3] ?? 0),
    products: (sums[high + 4] ?? 0) - (sums[low + 4] ?? 0),
  };
}

/** A long piece in equal parts, none longer than the longest. */
function inParts({ hours }: Screened, { first, end }: Piece): Piece[] {
  const lasts = (hours[end - 1] ?? 0) - (hours[first] ?? 0);
  const parts = Math.ceil(lasts / LONGEST_HOURS);
  if (parts <= 1) return [{ first, end }];
  const pieces: Piece[] = [];
  let from = first;
  for (let part = 1; part <= parts; part++) {
    const until = (hours[first] ?? 0) + (lasts * part) / parts;
    let to = from;
    while (to < end && ((hours[to] ?? 0) < until || part === parts)) to++;
    pieces.push({ first: from, end: to });
    from = to;
  }
  return pieces;
}

function spanOf(readings: Screened, piece: Piece): RestingSpan | undefined {
  if (!isLong(readings, piece)) return undefined;
  const { first, end } = piece;
  const { hours, carbonDioxideNoise, oxygenNoise } = readings;
  const carbonDioxide = lineThrough(hours, readings.carbonDioxide, first, end, carbonDioxideNoise.deviation);
  if (!carbonDioxide || carbonDioxide.count < FEWEST_READINGS) return undefined;
  const oxygen = isStuck(readings, piece)
    ? undefined
    : lineThrough(hours, readings.oxygen, first, end, oxygenNoise.deviation);
  return {
    from: (hours[first] ?? 0) * 60,
    to: (hours[end - 1] ?? 0) * 60,
    carbonDioxide,
    oxygen: oxygen && oxygen.count >= FEWEST_READINGS ? oxygen : undefined,
  };
}

/** All the same, in a row so long that a sensor which repeats itself no more often than this one hardly gives it. */
function isStuck({ oxygen, oxygenRepeats }: Screened, { first, end }: Piece): boolean {
  const { repeated, pairs } = repeatsOf(oxygen, first, end);
  return pairs > 0 && repeated === pairs && oxygenRepeats ** pairs < NO_LIVE_SENSOR;
}

/** How many of the readings that follow another are the same as it. */
function repeatsOf(values: Float64Array, first: number, end: number): { repeated: number; pairs: number } {
  let [repeated, pairs, last] = [0, 0, Number.NaN];
  for (let row = first; row < end; row++) {
    const value = values[row] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    if (!Number.isNaN(last)) pairs++;
    if (value === last) repeated++;
    last = value;
  }
  return { repeated, pairs };
}
