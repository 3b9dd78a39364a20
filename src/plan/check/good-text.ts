import { parseDay, parseWeek } from '../dates';
import { type Dimension, parseQuantity } from '../quantity';
import type { Schema } from './schema-types';

/** Values beyond this are a slip of the finger, and must not overflow a computation. */
export const MOST_VALUE = 1e9;

/** Whether there is nothing to say of a text. */
export function isGood(schema: Schema, text: string): boolean {
  const dimension = schema['x-dimension'];
  if (dimension) {
    const quantity = parseQuantity(text, dimension as Dimension);
    return !quantity || isWithinLimits(schema, quantity.value);
  }
  const kind = schema['x-kind'];
  if (!kind) return true;
  const read = kind.startsWith('day') ? parseDay : parseWeek;
  if (!text.includes('..')) return read(text) !== undefined;
  const ends = text.split('..').map(read);
  const [first, last] = ends;
  return first !== undefined && last !== undefined && !ends.includes(undefined) && first <= last;
}

/** Whether a value in the tool's unit lies within what its schema allows. */
function isWithinLimits(
  { 'x-above': above, 'x-least': least, 'x-most': most = MOST_VALUE }: Schema,
  value: number,
): boolean {
  return (above === undefined || value > above) && (least === undefined || value >= least) && value <= most;
}
