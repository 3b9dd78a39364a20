import { z } from 'zod';
import { oneOf } from './values';

const FIELD = /^[a-z][a-z-]*$/;
const cell = z.string().min(1);

/** How a file of comma-separated values is laid out that `lotwright take-in` reads. */
export const tableLayout = z.strictObject({
  holds: oneOf(['receipts', 'maturity', 'demand'], {
    meaning: 'What its rows are about.',
    example: 'receipts',
  }),
  columns: z.record(z.string().regex(FIELD), cell).meta({
    description:
      'What the columns are called in the file. Of receipts: `lot`, `day`, `bins`, and `field-temperature` if it is there. ' +
      'Of maturity: `lot`, `tested`, and `starch`, `firmness`, `soluble-solids`, `ethylene` where they are there. ' +
      'Of demand: `market`, `variety`, `class`, `week`, `cartons`.',
    examples: [{ lot: 'Lot no', day: 'Date', bins: 'Bins' }],
    'x-key-kind': 'field',
  }),
  separator: oneOf(['comma', 'semicolon', 'tab'], {
    meaning: 'What stands between two cells.',
    example: 'semicolon',
    default: 'comma',
  }).optional(),
  decimal: oneOf(['point', 'comma'], {
    meaning: 'The mark before decimals.',
    example: 'comma',
    default: 'point',
  }).optional(),
  dates: oneOf(['year-month-day', 'day-month-year', 'month-day-year'], {
    meaning: 'The order of a date.',
    example: 'day-month-year',
    default: 'year-month-day',
  }).optional(),
  units: z
    .record(z.string().regex(FIELD), cell)
    .meta({
      description:
        'The unit of a column whose numbers have none. Without it: °C for `field-temperature`, N for `firmness`, % for `soluble-solids`, ppm for `ethylene`.',
      examples: [{ firmness: 'lbf' }],
      'x-key-kind': 'field',
    })
    .optional(),
  names: z
    .record(z.string().regex(FIELD), z.record(z.string().min(1), cell))
    .meta({
      description: 'Of a column, what the file calls by another name than the plan: its word first.',
      examples: [{ lot: { 'GA-01': 'L1' } }],
      'x-key-kind': 'field',
    })
    .optional(),
});
