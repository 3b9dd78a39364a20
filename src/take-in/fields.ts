import type { Dimension } from '../plan/quantity';
import type { TableKind } from '../plan/table-model';

/** A field a table may have. */
export interface FieldRule {
  readonly name: string;
  readonly isNeeded?: boolean;
  readonly kind: 'lot' | 'text' | 'day' | 'week' | 'count' | 'number' | Dimension;
  /** The unit of bare numbers where the layout names none. */
  readonly unit?: string;
  readonly meaning: string;
}

const FIELDS: Readonly<Record<TableKind, readonly FieldRule[]>> = {
  receipts: [
    { name: 'lot', isNeeded: true, kind: 'lot', meaning: 'the lot' },
    { name: 'day', isNeeded: true, kind: 'day', meaning: 'the day the bins came in' },
    { name: 'bins', isNeeded: true, kind: 'count', meaning: 'bins of the load' },
    {
      name: 'field-temperature',
      kind: 'temperature',
      unit: '°C',
      meaning: 'temperature of the fruit on arrival',
    },
  ],
  maturity: [
    { name: 'lot', isNeeded: true, kind: 'lot', meaning: 'the lot' },
    { name: 'tested', isNeeded: true, kind: 'day', meaning: 'the day of the test' },
    { name: 'starch', kind: 'number', meaning: 'starch index' },
    { name: 'firmness', kind: 'force', unit: 'N', meaning: 'flesh firmness, mean' },
    { name: 'soluble-solids', kind: 'share', unit: '%', meaning: 'soluble solids, mean' },
    { name: 'ethylene', kind: 'concentration', unit: 'ppm', meaning: 'internal ethylene, mean' },
  ],
  demand: [
    { name: 'market', isNeeded: true, kind: 'text', meaning: 'who buys' },
    { name: 'variety', isNeeded: true, kind: 'text', meaning: 'what they buy' },
    { name: 'class', isNeeded: true, kind: 'text', meaning: 'the pack class' },
    { name: 'week', isNeeded: true, kind: 'week', meaning: 'the week' },
    { name: 'cartons', isNeeded: true, kind: 'count', meaning: 'cartons wanted in the week' },
  ],
};

export function fieldsOf(kind: TableKind): readonly FieldRule[] {
  return FIELDS[kind];
}

export function fieldOf(kind: TableKind, name: string): FieldRule | undefined {
  return FIELDS[kind].find((field) => field.name === name);
}
