/**
 * Quantities as planners write them: a number, a space if they like, and a unit (`18.6 m`, `61 ft`, `2.1 °C`,
 * `17.2 lbf`). Each dimension has one unit that the tool computes in; the others convert to it.
 *
 * Conversion factors are exact by definition unless noted: NIST Special Publication 811 (2008), appendix B.
 */

import { KnownTexts, ownCopy } from './text/known-texts';

interface UnitRule {
  /** Multiplies a value in this unit to get the dimension's unit. */
  readonly factor: number;
  /** Added before multiplying; temperatures only. */
  readonly offset?: number;
  /** Other ways to write the same unit. */
  readonly also?: readonly string[];
}

const POUND_KG = 0.45359237;
const POUND_FORCE_N = 4.4482216152605;
const FOOT_M = 0.3048;
const BTU_KJ = 1.05505585262;

/** Every dimension a plan speaks of, with the unit the tool computes in first. */
export const dimensions = {
  length: {
    m: { factor: 1 },
    cm: { factor: 0.01 },
    mm: { factor: 0.001 },
    ft: { factor: FOOT_M },
    in: { factor: 0.0254 },
  },
  volume: {
    m3: { factor: 1, also: ['m³'] },
    L: { factor: 0.001 },
    ft3: { factor: FOOT_M ** 3, also: ['ft³'] },
  },
  mass: {
    kg: { factor: 1 },
    g: { factor: 0.001 },
    t: { factor: 1000 },
    lb: { factor: POUND_KG },
    oz: { factor: POUND_KG / 16 },
  },
  temperature: { '°C': { factor: 1, also: ['C'] }, '°F': { factor: 5 / 9, offset: -32, also: ['F'] } },
  'temperature difference': { K: { factor: 1, also: ['°C', 'C'] }, '°F': { factor: 5 / 9, also: ['F'] } },
  share: { '%': { factor: 1 } },
  concentration: { ppm: { factor: 1, also: ['µL/L'] } },
  pressure: {
    Pa: { factor: 1 },
    kPa: { factor: 1000 },
    // Conventional inch of water, NIST SP 811 appendix B.8.
    inH2O: { factor: 249.08891, also: ['in w.g.'] },
  },
  force: { N: { factor: 1 }, kgf: { factor: 9.80665 }, lbf: { factor: POUND_FORCE_N } },
  power: {
    kW: { factor: 1 },
    W: { factor: 0.001 },
    // One ton of refrigeration is 12,000 BTU an hour.
    TR: { factor: (12000 * BTU_KJ) / 3600 },
    // 550 foot-pounds of force a second.
    hp: { factor: (550 * FOOT_M * POUND_FORCE_N) / 1000 },
    'BTU/h': { factor: BTU_KJ / 3600 },
  },
  'heat transfer': {
    'W/m2K': { factor: 1, also: ['W/m²K'] },
    'BTU/hft2°F': { factor: (BTU_KJ * 1000) / 3600 / FOOT_M ** 2 / (5 / 9), also: ['BTU/h·ft²·°F'] },
  },
  flow: { 'm3/h': { factor: 1, also: ['m³/h'] }, 'ft3/min': { factor: FOOT_M ** 3 * 60, also: ['cfm'] } },
  removal: { 'kg/day': { factor: 1 }, 'kg/h': { factor: 24 }, 'lb/day': { factor: POUND_KG } },
  respiration: { 'mg/kg/h': { factor: 1 } },
  transpiration: { 'ng/kg/s/Pa': { factor: 1 } },
  'specific heat': {
    'kJ/kgK': { factor: 1, also: ['kJ/kg·K', 'kJ/kg/K'] },
    // The international calorie of 4.1868 J, which makes a kilocalorie for each kilogram and kelvin one BTU/lb°F.
    'kcal/kgK': { factor: 4.1868, also: ['kcal/kg·K', 'kcal/kg/K'] },
    'BTU/lb°F': { factor: BTU_KJ / POUND_KG / (5 / 9), also: ['BTU/lb·°F'] },
  },
  density: {
    'kg/m3': { factor: 1, also: ['kg/m³'] },
    'lb/ft3': { factor: POUND_KG / FOOT_M ** 3, also: ['lb/ft³'] },
  },
  'heat of respiration': { 'J/mg': { factor: 1, also: ['kJ/g'] } },
  'short time': { min: { factor: 1 }, s: { factor: 1 / 60 }, h: { factor: 60 } },
  'long time': {
    days: { factor: 1, also: ['day', 'd'] },
    h: { factor: 1 / 24 },
    weeks: { factor: 7, also: ['week'] },
    // A twelfth of the mean Gregorian year of 365.2425 days.
    months: { factor: 365.2425 / 12, also: ['month'] },
  },
} as const satisfies Readonly<Record<string, Readonly<Record<string, UnitRule>>>>;

export type Dimension = keyof typeof dimensions;

const NUMBER = '[+-]?(?:\\d+(?:\\.\\d+)?|\\.\\d+)';
const QUANTITY = new RegExp(`^(${NUMBER})\\s*(\\S.*)$`);

/** A quantity as written, and its value in the dimension's own unit. */
export interface Quantity {
  readonly value: number;
  readonly written: number;
  readonly unit: string;
}

/** The unit a dimension's values are computed in. */
export function unitOf(dimension: Dimension): string {
  return Object.keys(dimensions[dimension])[0] as string;
}

/** Every spelling of every unit of a dimension. */
export function unitSpellings(dimension: Dimension): string[] {
  return rulesOf(dimension).flatMap(([unit, rule]) => [unit, ...(rule.also ?? [])]);
}

/** A pattern for the JSON Schema that accepts exactly what `parseQuantity` accepts for this dimension. */
export function quantityPattern(dimension: Dimension): string {
  const spellings = unitSpellings(dimension)
    .sort((a, b) => b.length - a.length)
    .map((unit) => unit.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&'));
  return `^${NUMBER}\\s*(?:${spellings.join('|')})$`;
}

/** What was read last, by dimension: a plan says the same few quantities over and over. */
const readBefore: { [D in Dimension]?: KnownTexts<Quantity> } = {};
const MOST_READ_BEFORE = 1024;

/** Reads a quantity of the given dimension; undefined where the text is not one. Equal texts give the same object. */
export function parseQuantity(text: string, dimension: Dimension): Quantity | undefined {
  let before = readBefore[dimension];
  if (!before) {
    before = new KnownTexts(MOST_READ_BEFORE);
    readBefore[dimension] = before;
  }
  const known = before.get(text);
  if (known) return known;
  const quantity = readQuantity(text, dimension);
  return quantity && before.set(ownCopy(text), quantity);
}

function readQuantity(text: string, dimension: Dimension): Quantity | undefined {
  const match = QUANTITY.exec(text);
  if (!match) return undefined;
  const known = bySpelling(dimension).get(match[2] as string);
  if (!known) return undefined;
  const [unit, rule] = known;
  const written = Number(match[1]);
  return { written, unit, value: (written + (rule.offset ?? 0)) * rule.factor };
}

const spelled = new Map<Dimension, ReadonlyMap<string, readonly [string, UnitRule]>>();

/** A dimension's units by each of their spellings. */
function bySpelling(dimension: Dimension): ReadonlyMap<string, readonly [string, UnitRule]> {
  const known =
    spelled.get(dimension) ??
    new Map(
      rulesOf(dimension).flatMap((one) => [one[0], ...(one[1].also ?? [])].map((as) => [as, one] as const)),
    );
  spelled.set(dimension, known);
  return known;
}

/** The dimensions a text could be a quantity of: what a message about a wrong one says. */
export function dimensionsOf(text: string): Dimension[] {
  return (Object.keys(dimensions) as Dimension[]).filter((dimension) => parseQuantity(text, dimension));
}

/** Converts a value in the dimension's own unit to another unit of it, for printing. */
export function toUnit(value: number, dimension: Dimension, unit: string): number {
  const rule = rulesOf(dimension).find(([name]) => name === unit)?.[1];
  if (!rule) throw new RangeError(`${unit} is not a unit of ${dimension}`);
  return value / rule.factor - (rule.offset ?? 0);
}

function rulesOf(dimension: Dimension): [string, UnitRule][] {
  return Object.entries(dimensions[dimension]);
}
