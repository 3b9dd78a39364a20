import type { Plan } from '../../plan/model';
import { type Dimension, dimensions, unitSpellings } from '../../plan/quantity';
import { cursorAt } from './cursor';
import type { PlacePoint } from './entries';
import { guideAt } from './schema-guide';

/** Help while a quantity is written: how it is put together, and which part the caret is in. */
export interface QuantityHelp {
  readonly label: string;
  /** Offsets of the parts in the label. */
  readonly parts: readonly (readonly [start: number, end: number])[];
  readonly active: number;
  readonly description: string;
}

/** Help at a value that is a quantity; undefined elsewhere. */
export function quantityHelpAt(plan: Plan, point: PlacePoint): QuantityHelp | undefined {
  const text = plan.files.get(point.file)?.text;
  const place = text === undefined ? undefined : cursorAt(text, point.offset);
  if (place?.at !== 'value') return undefined;
  const guide = guideAt(place.path);
  const dimension = guide?.['x-dimension'];
  if (!guide || dimension === undefined || !isDimension(dimension)) return undefined;
  const units = unitSpellings(dimension).join(' | ');
  const key = `${place.path.at(-1)}: `;
  const label = `${key}number ${units}`;
  const number = [key.length, key.length + 'number'.length] as const;
  const written = place.text.slice(0, Math.max(0, point.offset - place.start));
  const example = guide.examples?.[0];
  return {
    label,
    parts: [number, [number[1] + 1, label.length]],
    active: /^[+-]?[\d.]+\s*\D/.test(written) || /^[+-]?[\d.]+\s+$/.test(written) ? 1 : 0,
    description: [
      guide.description,
      example === undefined ? undefined : `Example: ${String(example)}.`,
      guide['x-default'] === undefined ? undefined : `Default: ${guide['x-default']}.`,
    ]
      .filter((part) => part !== undefined)
      .join(' '),
  };
}

function isDimension(text: string): text is Dimension {
  return Object.hasOwn(dimensions, text);
}
