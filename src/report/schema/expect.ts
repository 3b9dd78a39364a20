import { z } from 'zod';
import { header, measure, place, week } from './parts';

const told = z
  .union([
    measure,
    z.strictObject({
      week: week.nullable().meta({ description: 'Null for a room that is opened at no time.' }),
    }),
  ])
  .meta({ description: 'An amount, or a week.' });

const cure = z.strictObject({
  text: z.string(),
  edits: z
    .array(z.strictObject({ title: z.string(), place, newText: z.string() }))
    .meta({ description: 'The same as changes of the plan, where it is one.' }),
});

export const expectationRow = z.strictObject({
  id: z.string(),
  place: place.meta({ description: 'The smallest place that says what is promised.' }),
  claim: z.string().meta({ description: 'The promise in words.' }),
  kind: z
    .string()
    .optional()
    .meta({ description: 'The key it is promised by; absent where there is not just one.' }),
  because: z.string().optional(),
  state: z.enum(['kept', 'broken', 'not judged']),
  promised: told.optional(),
  measured: told.optional().meta({ description: 'What came out.' }),
  why: z.string().meta({ description: 'Where and by how much; of one not judged what it lacks.' }),
  cures: z.array(cure).meta({ description: 'What would keep it, as far as it was worked out.' }),
});

export const expectReport = z
  .strictObject({
    ...header('expect'),
    schedule: z
      .enum(['quick', 'none'])
      .meta({ description: 'The release schedule that promises are held against.' }),
    failed: z.boolean().meta({ description: 'One is broken; with --strict also one that is not judged.' }),
    counts: z.strictObject({ kept: z.int(), broken: z.int(), notJudged: z.int() }),
    expectations: z.array(expectationRow),
    caution: z.string().optional().meta({ description: 'Where a week of opening is told.' }),
  })
  .meta({ title: 'Lotwright expect report', description: 'Printed by `lotwright expect --format json`.' });
