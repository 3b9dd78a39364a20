import { fixed } from '../../plan/display';
import { type Dimension, dimensions, parseQuantity, toUnit } from '../../plan/quantity';

/** The unit a value is told in beside the one it is written in: metric for US values, US for metric ones. */
const OTHER: Readonly<Partial<Record<Dimension, readonly [metric: string, us: string]>>> = {
  length: ['m', 'ft'],
  volume: ['m3', 'ft3'],
  mass: ['kg', 'lb'],
  temperature: ['°C', '°F'],
  'temperature difference': ['K', '°F'],
  pressure: ['Pa', 'inH2O'],
  force: ['N', 'lbf'],
  power: ['kW', 'TR'],
  'heat transfer': ['W/m2K', 'BTU/hft2°F'],
  'specific heat': ['kJ/kgK', 'BTU/lb°F'],
  density: ['kg/m3', 'lb/ft3'],
  flow: ['m3/h', 'ft3/min'],
  removal: ['kg/day', 'lb/day'],
};

/** Decimals of a temperature: no probe in a room or a bin reads finer. */
const TENTHS = 1;
const FINEST = 6;

const US_UNITS: ReadonlySet<string> = new Set([
  'ft',
  'in',
  'ft3',
  'lb',
  'oz',
  '°F',
  'inH2O',
  'lbf',
  'TR',
  'BTU/h',
  'BTU/hft2°F',
  'BTU/lb°F',
  'lb/ft3',
  'ft3/min',
  'lb/day',
]);

/** The quantity in the other system of units (`61.0 ft` for `18.6 m`); undefined where there is none. */
export function inOtherUnits(text: string, dimension: string): string | undefined {
  if (!isDimension(dimension)) return undefined;
  const quantity = parseQuantity(text, dimension);
  const pair = OTHER[dimension];
  if (!quantity || !pair) return undefined;
  const unit = US_UNITS.has(quantity.unit) ? pair[0] : pair[1];
  const value = toUnit(quantity.value, dimension, unit);
  const most = dimension === 'temperature' ? TENTHS : FINEST;
  return `${fixed(value, Math.min(most, decimals(value)))} ${unit}`;
}

function isDimension(text: string): text is Dimension {
  return Object.hasOwn(dimensions, text);
}

/** Four significant digits, as many as measured values carry. */
function decimals(value: number): number {
  if (value === 0) return 1;
  return Math.max(0, 3 - Math.floor(Math.log10(Math.abs(value))));
}
