import {
  compute,
  type Figure,
  MIDDLE_OF_RANGE,
  referenceFigure,
  type Source,
  type Unit,
} from '../plan/figure';
import { type Dimension, parseQuantity } from '../plan/quantity';
import { remark } from './sources';

/** A reference value as its source prints it: one value, or a range. Units as in the plan language. */
export interface Printed {
  readonly low: number;
  readonly high: number;
  readonly unit: string;
  readonly source: Source;
}

export function one(value: number, unit: string, source: Source): Printed {
  return { low: value, high: value, unit, source };
}

export function between(low: number, high: number, unit: string, source: Source): Printed {
  return { low, high, unit, source };
}

const DIMENSION_OF = {
  days: 'long time',
  degC: 'temperature',
  '%': 'share',
  N: 'force',
  'N/month': 'force',
} as const satisfies Partial<Record<Unit, Dimension>>;

export type PrintedUnit = keyof typeof DIMENSION_OF;

/** The value in the tool's unit; of a range, its middle, with both ends in the derivation. */
export function expected<U extends PrintedUnit>(name: string, unit: U, printed: Printed): Figure<U> {
  if (printed.low === printed.high) return end(name, unit, printed.low, printed);
  const inputs = { low: lowest(name, unit, printed), high: highest(name, unit, printed) };
  return compute(name, unit, MIDDLE_OF_RANGE, inputs, ({ low, high }) => (low + high) / 2);
}

export function lowest<U extends PrintedUnit>(name: string, unit: U, printed: Printed): Figure<U> {
  return end(`${name}, lowest`, unit, printed.low, printed);
}

export function highest<U extends PrintedUnit>(name: string, unit: U, printed: Printed): Figure<U> {
  return end(`${name}, highest`, unit, printed.high, printed);
}

/** Both ends of a range of days; undefined where the source gives one value. */
export function daysRange(
  name: string,
  printed: Printed,
): { shortest: Figure<'days'>; longest: Figure<'days'> } | undefined {
  if (printed.low === printed.high) return undefined;
  return { shortest: lowest(name, 'days', printed), longest: highest(name, 'days', printed) };
}

function end<U extends PrintedUnit>(name: string, unit: U, value: number, printed: Printed): Figure<U> {
  const quantity = parseQuantity(`${value} ${printed.unit}`, DIMENSION_OF[unit]);
  if (!quantity) throw new RangeError(`${printed.unit} is not a unit of ${DIMENSION_OF[unit]}`);
  const isTold = quantity.value !== value && !isCited(value, printed);
  const source = isTold ? remark(printed.source, `printed as ${value} ${printed.unit}`) : printed.source;
  return referenceFigure(name, unit, quantity.value, source);
}

/** Where the citation has the printed range already, its ends are not told again. */
function isCited(value: number, { unit, source }: Printed): boolean {
  return new RegExp(`\\b${value}\\b[^()]* ${unit}`).test(source.citation);
}
