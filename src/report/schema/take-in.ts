import { z } from 'zod';
import { header } from './parts';

const line = z.int().min(1).meta({ description: 'Line of the file taken in, counted from 1.' });

export const takeInReport = z
  .strictObject({
    ...header('take-in'),
    table: z.string().meta({ description: 'The entry of `tables` that says how the file is laid out.' }),
    holds: z.enum(['receipts', 'maturity', 'demand', 'progress', 'samples', 'packed', 'sales']),
    source: z.string().meta({ description: 'The file taken in.' }),
    rows: z.int().min(0).meta({ description: 'Rows of the file, the heading not counted.' }),
    alreadyThere: z
      .int()
      .min(0)
      .meta({ description: 'Values that the plan has already as the file has them.' }),
    written: z.boolean().meta({ description: 'Whether the changes are in the plan now.' }),
    changes: z.array(
      z.strictObject({
        file: z.string(),
        entry: z.string().meta({ examples: ['lot L12'] }),
        key: z.string().meta({
          description: '`new` for an entry that is added whole.',
          examples: ['received-by-day/2026-09-05', 'new'],
        }),
        before: z.string().meta({ description: 'As written; absent where nothing was.' }).optional(),
        after: z.string(),
        lines: z.array(line),
      }),
    ),
    faults: z
      .array(z.strictObject({ line, reason: z.string() }))
      .meta({ description: 'Rows that are not taken, and why. All others are.' }),
    caution: z.string().optional().meta({ description: 'Where a row tells of a room that is opened.' }),
  })
  .meta({ title: 'Lotwright take-in report', description: 'Printed by `lotwright take-in --format json`.' });
