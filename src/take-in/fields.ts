import { type ProgressKey, progressSteps } from '../plan/progress-steps';
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

/** Disorders that a sample may name, as the plan does. */
export const DISORDERS = [
  'carbon-dioxide-injury',
  'low-oxygen-injury',
  'chilling-injury',
  'scald',
  'senescent-scald',
  'soft-scald',
  'browning',
  'bitter-pit',
  'rot',
] as const;

/** Fields for the steps of a fill, by the keys of its record. */
export const PROGRESS_STEPS: readonly ProgressKey[] = progressSteps.map(([key]) => key);

/** What the field of a class's cartons begins with; the class is behind it. */
export const CARTONS_OF = 'cartons-';

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
  progress: [
    { name: 'fill', isNeeded: true, kind: 'text', meaning: 'the fill, or its room' },
    { name: 'step', kind: 'text', meaning: 'what happened, on the day in `day`' },
    { name: 'day', kind: 'day', meaning: 'the day of `step`' },
    ...PROGRESS_STEPS.map((name): FieldRule => ({ name, kind: 'day', meaning: `the day of ${name}` })),
    { name: 'lot', kind: 'lot', meaning: 'a lot that went in' },
    { name: 'bins', kind: 'count', meaning: 'its bins' },
  ],
  samples: [
    { name: 'sample', kind: 'text', meaning: "the sample's own number" },
    { name: 'lot', isNeeded: true, kind: 'lot', meaning: 'the lot' },
    { name: 'fill', kind: 'text', meaning: 'the fill, or its room' },
    { name: 'taken', isNeeded: true, kind: 'day', meaning: 'the day it was taken' },
    { name: 'fruit', kind: 'count', meaning: 'fruit tested' },
    { name: 'firmness', kind: 'force', unit: 'N', meaning: 'flesh firmness, mean' },
    { name: 'firmness-spread', kind: 'force', unit: 'N', meaning: 'its standard deviation' },
    { name: 'soluble-solids', kind: 'share', unit: '%', meaning: 'soluble solids, mean' },
    { name: 'ethylene', kind: 'concentration', unit: 'ppm', meaning: 'internal ethylene, mean' },
    ...DISORDERS.map(
      (name): FieldRule => ({ name, kind: 'share', unit: '%', meaning: `share of the fruit with ${name}` }),
    ),
  ],
  packed: [
    { name: 'run', kind: 'text', meaning: "the run's own number" },
    { name: 'lot', isNeeded: true, kind: 'lot', meaning: 'the lot' },
    { name: 'fill', kind: 'text', meaning: 'the fill, or its room' },
    { name: 'day', isNeeded: true, kind: 'day', meaning: 'the day it was packed' },
    { name: 'bins', isNeeded: true, kind: 'count', meaning: 'bins of the run' },
    { name: 'class', kind: 'text', meaning: 'a class, its cartons in `cartons`' },
    { name: 'cartons', kind: 'count', meaning: 'cartons of that class' },
  ],
  sales: [
    { name: 'market', isNeeded: true, kind: 'text', meaning: 'who bought' },
    { name: 'variety', isNeeded: true, kind: 'text', meaning: 'what they bought' },
    { name: 'class', isNeeded: true, kind: 'text', meaning: 'the pack class' },
    { name: 'week', isNeeded: true, kind: 'week', meaning: 'the week it left in' },
    { name: 'cartons', isNeeded: true, kind: 'count', meaning: 'cartons that left' },
    { name: 'price', kind: 'number', meaning: 'what a carton brought' },
  ],
};

export function fieldsOf(kind: TableKind): readonly FieldRule[] {
  return FIELDS[kind];
}

export function fieldOf(kind: TableKind, name: string): FieldRule | undefined {
  return FIELDS[kind].find((field) => field.name === name);
}
