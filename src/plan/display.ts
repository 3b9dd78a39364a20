import { type Figure, MIDDLE_OF_RANGE, type Origin, type Unit } from './figure';
import { type Dimension, toUnit } from './quantity';

/** The two systems results are shown in. Figures are always computed in metric units. */
export type UnitSystem = 'metric' | 'us';

/** How results are shown: the system of units, and what prices are in. */
export interface DisplayUnits {
  readonly system: UnitSystem;
  readonly currency: string;
}

/** A value with its unit as the plan language spells it; what every JSON report holds. */
export interface Measure {
  readonly value: number;
  readonly unit: string;
}

/** How a unit is shown: its spelling in JSON, its label in text, and the decimals that make sense in a table. */
interface ShownUnit {
  readonly unit: string;
  readonly label: string;
  readonly decimals: number;
  /** From the computed unit; the same value where absent. */
  readonly convert?: (value: number) => number;
}

const POUNDS_IN_KG = toUnit(1, 'mass', 'lb');
const FEET_IN_M = toUnit(1, 'length', 'ft');
const BTU_IN_KJ = toUnit(1, 'power', 'BTU/h') / 3600;
/** A short ton is 2000 lb. */
const SHORT_TONS_IN_T = (1000 * POUNDS_IN_KG) / 2000;
/** One kelvin is 1.8 degrees Fahrenheit of difference. */
const FAHRENHEIT_STEPS_IN_K = 9 / 5;

function metric(unit: string, decimals: number, label = unit): ShownUnit {
  return { unit, label, decimals };
}

function us(dimension: Dimension, unit: string, decimals: number, label = unit): ShownUnit {
  return { unit, label, decimals, convert: (value) => toUnit(value, dimension, unit) };
}

function scaled(factor: number, unit: string, decimals: number, label = unit): ShownUnit {
  return { unit, label, decimals, convert: (value) => value * factor };
}

const METRIC: Readonly<Record<Unit, ShownUnit>> = {
  '1': metric('1', 2, ''),
  '%': metric('%', 1),
  ppm: metric('ppm', 1),
  m: metric('m', 2),
  m2: metric('m2', 0, 'm²'),
  m3: metric('m3', 0, 'm³'),
  kg: metric('kg', 0),
  t: metric('t', 1),
  degC: metric('°C', 1),
  K: metric('K', 1),
  Pa: metric('Pa', 0),
  N: metric('N', 0),
  W: metric('W', 0),
  kW: metric('kW', 1),
  kJ: metric('kJ', 0),
  MJ: metric('MJ', 1),
  'W/m2K': metric('W/m2K', 2, 'W/m²K'),
  'kJ/kgK': metric('kJ/kgK', 2),
  'kJ/m3': metric('kJ/m3', 1, 'kJ/m³'),
  'W/t': metric('W/t', 1),
  min: metric('min', 0),
  h: metric('h', 1),
  days: metric('days', 0),
  weeks: metric('weeks', 0),
  months: metric('months', 1),
  'm3/h': metric('m3/h', 1, 'm³/h'),
  'kg/day': metric('kg/day', 1),
  'kg/t/day': metric('kg/t/day', 3),
  'kg/m3': metric('kg/m3', 0, 'kg/m³'),
  'mg/kg/h': metric('mg/kg/h', 2),
  'mg/mL': metric('mg/mL', 3),
  'kg/day/%': metric('kg/day/%', 1, 'kg/day per %'),
  '1/h': metric('1/h', 4, 'per hour'),
  '1/day': metric('1/day', 4, 'per day'),
  'N/month': metric('N/month', 1),
  places: metric('places', 0),
  bins: metric('bins', 0),
  'bins/week': metric('bins/week', 0),
  'bins/day': metric('bins/day', 0),
  cartons: metric('cartons', 0),
  'cartons/week': metric('cartons/week', 0),
  money: metric('money', 0),
};

const US: Readonly<Partial<Record<Unit, ShownUnit>>> = {
  m: us('length', 'ft', 1),
  m2: scaled(FEET_IN_M ** 2, 'ft2', 0, 'ft²'),
  m3: us('volume', 'ft3', 0, 'ft³'),
  kg: us('mass', 'lb', 0),
  t: scaled(1000 * POUNDS_IN_KG, 'lb', 0),
  degC: us('temperature', '°F', 1),
  K: us('temperature difference', '°F', 1),
  Pa: us('pressure', 'inH2O', 2, 'in H₂O'),
  N: us('force', 'lbf', 1),
  W: scaled(toUnit(0.001, 'power', 'BTU/h'), 'BTU/h', 0),
  kW: us('power', 'TR', 1),
  kJ: scaled(BTU_IN_KJ, 'BTU', 0),
  MJ: scaled(1000 * BTU_IN_KJ, 'BTU', 0),
  'W/m2K': us('heat transfer', 'BTU/hft2°F', 3, 'BTU/h·ft²·°F'),
  'kJ/kgK': scaled(BTU_IN_KJ / POUNDS_IN_KG / FAHRENHEIT_STEPS_IN_K, 'BTU/lb°F', 2, 'BTU/lb·°F'),
  'kJ/m3': scaled(BTU_IN_KJ / FEET_IN_M ** 3, 'BTU/ft3', 2, 'BTU/ft³'),
  'W/t': scaled((toUnit(0.001, 'power', 'BTU/h') * 24) / SHORT_TONS_IN_T, 'BTU/ton/day', 0),
  'm3/h': us('flow', 'ft3/min', 1, 'ft³/min'),
  'kg/day': us('removal', 'lb/day', 1),
  'kg/t/day': scaled(POUNDS_IN_KG / SHORT_TONS_IN_T, 'lb/ton/day', 3),
  'kg/m3': scaled(POUNDS_IN_KG / FEET_IN_M ** 3, 'lb/ft3', 1, 'lb/ft³'),
  'kg/day/%': scaled(POUNDS_IN_KG, 'lb/day/%', 1, 'lb/day per %'),
  'N/month': scaled(toUnit(1, 'force', 'lbf'), 'lbf/month', 2),
};

function shownUnit(unit: Unit, system: UnitSystem): ShownUnit {
  return (system === 'us' ? US[unit] : undefined) ?? METRIC[unit];
}

/** Ten significant digits: more than any figure is known to, and free of the last digits' noise. */
function tidy(value: number): number {
  return Number(value.toPrecision(10));
}

/** A value in the units results are shown in; undefined where it is not a finite number. */
export function measure(value: number, unit: Unit, units: DisplayUnits): Measure | undefined {
  const shown = shownUnit(unit, units.system);
  const converted = shown.convert ? shown.convert(value) : value;
  if (!Number.isFinite(converted)) return undefined;
  return { value: tidy(converted), unit: unit === 'money' ? units.currency : shown.unit };
}

export function measureOf(figure: Figure | undefined, units: DisplayUnits): Measure | undefined {
  return figure && measure(figure.value, figure.unit, units);
}

/** The label of a unit in text: `m³`, `°C`, `kg/day`; empty for a pure number. */
export function unitLabel(unit: Unit, units: DisplayUnits): string {
  return unit === 'money' ? units.currency : shownUnit(unit, units.system).label;
}

/**
 * A figure with its unit, rounded as a reader wants it, or to so many decimals more: `1,272 m³`, `2.1 °C`. Levels and
 * temperatures that nobody computed are set-points and limits: they keep the decimals they were written with.
 */
export function showFigure(figure: Figure, units: DisplayUnits, more = 0): string {
  const { value, decimals } = asShown(figure, units);
  return withUnit(fixed(value, decimals + more), unitLabel(figure.unit, units));
}

/**
 * A size that is needed, with its unit: rounded up at the digit shown, in the units it is shown in, so that what is told
 * is enough.
 */
export function showNeeded(figure: Figure, units: DisplayUnits): string {
  const { value, decimals } = asShown(figure, units);
  return withUnit(fixed(roundedUp(value, decimals), decimals), unitLabel(figure.unit, units));
}

/** The least number of so many decimals that is no less; what conversions leave behind is not counted. */
export function roundedUp(value: number, decimals: number): number {
  const scale = 10 ** decimals;
  return Math.ceil(tidy(value * scale)) / scale;
}

function asShown(figure: Figure, units: DisplayUnits): { readonly value: number; readonly decimals: number } {
  const shown = shownUnit(figure.unit, units.system);
  const value = shown.convert ? shown.convert(figure.value) : figure.value;
  const decimals =
    figure.unit === 'money'
      ? moneyDecimals(value)
      : isWritten(figure)
        ? setPointDecimals(value, shown)
        : decimalsFor(value, shown.decimals);
  return { value, decimals };
}

/** A level or a temperature as the plan or a source has it. Of others nothing is asked: the room may be made again for it. */
function isWritten(figure: Figure): boolean {
  return (figure.unit === '%' || figure.unit === 'degC') && isAsGiven(figure.origin);
}

/** Whether a figure is as the plan or a source has it, or the middle of the range that it has. */
export function isAsGiven(origin: { readonly kind: Origin['kind']; readonly formula?: string }): boolean {
  return origin.kind === 'computed' ? origin.formula === MIDDLE_OF_RANGE : origin.kind !== 'counted';
}

/** Decimals that a set-point is written with at most. */
const SET_POINT_DECIMALS = 2;

/**
 * Decimals of a set-point as it was written: 1.75 % is not told as 1.8 %. A temperature that is whole tenths of either
 * scale was written so, and what the other scale makes of it needs no more than tenths.
 */
function setPointDecimals(value: number, { unit, decimals }: Pick<ShownUnit, 'unit' | 'decimals'>): number {
  const other = unit === '°C' ? value * 1.8 + 32 : unit === '°F' ? (value - 32) / 1.8 : value;
  if (hasDecimals(value, decimals) || hasDecimals(other, decimals)) return decimals;
  // The 33.098 °F that are 0.61 °C read 33.1, not 33.10.
  const rounded = Number(value.toFixed(SET_POINT_DECIMALS));
  if (Math.abs(value) >= 0.1 && hasDecimals(rounded, decimals)) return decimals;
  return Math.max(SET_POINT_DECIMALS, decimalsFor(value, decimals));
}

/** The value says all it has in so many decimals; what conversions leave behind is not counted. */
function hasDecimals(value: number, decimals: number): boolean {
  const scaled = value * 10 ** decimals;
  return Math.abs(scaled - Math.round(scaled)) < 1e-6;
}

/** A set-point's value without its unit, with the decimals it was written with: `1.75`, `0.5`. */
export function showSetPoint(shown: Measure | undefined): string {
  return shown ? fixed(shown.value, decimalsOfSetPoint(shown)) : '';
}

/** Decimals with which each of these set-points is told as it was written; as usual where there is none. */
export function decimalsOfSetPoints(setPoints: readonly (Measure | undefined)[]): number {
  return setPoints.reduce((most, one) => (one ? Math.max(most, decimalsOfSetPoint(one)) : most), 1);
}

function decimalsOfSetPoint({ unit, value }: Measure): number {
  return setPointDecimals(value, { unit, decimals: DECIMALS.get(unit) ?? 1 });
}

/** Decimals more with which two figures that differ may be told apart; what differs less is told as the same. */
const MOST_MORE_DECIMALS = 6;

/** Two figures of one unit as `showFigure` has them, with as few decimals more as it takes to tell them apart. */
export function showApart(one: Figure, other: Figure, units: DisplayUnits): readonly [string, string] {
  return untilApart((more) => [showFigure(one, units, more), showFigure(other, units, more)]);
}

/** Two numbers with so many decimals, and with as few more as it takes to tell them apart. */
export function fixedApart(one: number, other: number, decimals: number): readonly [string, string] {
  return untilApart((more) => [fixed(one, decimals + more), fixed(other, decimals + more)]);
}

function untilApart(shown: (more: number) => readonly [string, string]): readonly [string, string] {
  for (let more = 0; more <= MOST_MORE_DECIMALS; more++) {
    const [a, b] = shown(more);
    if (a !== b) return [a, b];
  }
  return shown(0);
}

/** A measure's value without its unit, for a table's cell; with so many decimals more than usual. */
export function showMeasure(shown: Measure | undefined, more = 0): string {
  if (!shown) return '';
  const decimals = DECIMALS.get(shown.unit);
  // Whatever is no unit is a currency.
  return fixed(
    shown.value,
    more + (decimals === undefined ? moneyDecimals(shown.value) : decimalsFor(shown.value, decimals)),
  );
}

/** Decimals more than usual with which a measure is told apart from each of others, as few as it takes; 0 of the same value. */
export function decimalsApart(one: Measure, others: readonly Measure[]): number {
  const other = others.filter(({ value }) => value !== one.value);
  for (let more = 0; more <= MOST_MORE_DECIMALS; more++)
    if (other.every((each) => showMeasure(each, more) !== showMeasure(one, more))) return more;
  return 0;
}

/** The label of a unit as JSON spells it. */
export function measureLabel(unit: string): string {
  return LABELS.get(unit) ?? unit;
}

const SHOWN: readonly ShownUnit[] = [...Object.values(METRIC), ...Object.values(US)];
const DECIMALS: ReadonlyMap<string, number> = new Map(SHOWN.map((shown) => [shown.unit, shown.decimals]));
const LABELS: ReadonlyMap<string, string> = new Map(SHOWN.map((shown) => [shown.unit, shown.label]));

/** Small values keep at least two significant digits: 0.042 m³ must not read as 0 m³. Whole counts stay whole. */
function decimalsFor(value: number, decimals: number): number {
  const size = Math.abs(value);
  if (size >= 10 ** -decimals * 9.95 || Number.isInteger(tidy(size * 10 ** decimals))) return decimals;
  return Math.min(decimals + 6, Math.max(decimals, 1 - Math.floor(Math.log10(size))));
}

/** Prices of a carton are told to the hundredth; sums of money are not. */
function moneyDecimals(value: number): number {
  return Math.abs(value) < 1000 ? 2 : 0;
}

/**
 * Text with the temperatures named in it as the reader has them: `0.5 °C (33 °F)` is `33 °F` in US units, and `3 °C` is
 * `37.4 °F`.
 */
export function temperaturesIn(text: string, { system }: Pick<DisplayUnits, 'system'>): string {
  if (system !== 'us') return text;
  return text.replace(
    /(-?\d+(?:\.\d+)?) \u00b0C(?: \((-?\d+(?:\.\d+)?) \u00b0F\))?/g,
    (_, degrees: string, printed: string | undefined) =>
      `${printed ?? String(Number((Number(degrees) * 1.8 + 32).toFixed(1)))} °F`,
  );
}

/** A number with that many decimals and commas between thousands. */
export function fixed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  const [whole = '0', fraction] = text.split('.');
  const grouped = whole.replace(/\B(?=(?:\d{3})+$)/g, ',');
  const sign = value < 0 && Number(text) !== 0 ? '-' : '';
  return `${sign}${grouped}${fraction === undefined ? '' : `.${fraction}`}`;
}

/** Six significant digits, without trailing zeros or commas, so that it can be typed into a calculator. */
export function significant(value: number): string {
  if (!Number.isFinite(value)) return String(value);
  // JavaScript itself writes an exponent only below 1e-6 and from 1e21.
  return String(Number(value.toPrecision(6)));
}

function withUnit(text: string, label: string): string {
  return label === '' ? text : `${text} ${label}`;
}
