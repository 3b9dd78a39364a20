import { z } from 'zod';
import { day, header, measure, source } from './parts';

const time = z.string().regex(/^\d{2}:\d{2}$/);
const date = z.strictObject({
  day,
  by: z.enum(['record', 'readings', 'plan']).meta({
    description: 'On record in the plan, taken from the readings, or only planned: then it is lacking.',
  }),
});
const reading = z
  .strictObject({ time, value: measure, lowest: measure, highest: measure, count: z.int() })
  .meta({ description: 'The first reading of the day, and what all of that day came to.' });

const record = z.strictObject({
  room: z.string(),
  fill: z.string(),
  law: z.enum(['washington', 'new-york']),
  rules: z.array(source).meta({ description: 'What the record is held against, as it was read.' }),
  until: day.meta({ description: 'The last day of the record.' }),
  varieties: z.array(z.strictObject({ variety: z.string(), bins: z.number() })),
  dates: z.strictObject({
    firstBin: date.optional(),
    lastBin: date.optional(),
    sealed: date.optional(),
    fivePerCent: date.optional(),
    opened: date.optional(),
    emptied: date.optional(),
  }),
  fivePerCentDue: day.optional(),
  claims: z.array(
    z.strictObject({
      variety: z.string(),
      days: z.int().optional(),
      rule: z.string().optional(),
      from: day.meta({ description: 'First day of the claim, as far as this record tells.' }).optional(),
      why: z.string().meta({ description: 'Why there is none.' }).optional(),
    }),
  ),
  lacks: z.array(z.strictObject({ what: z.string(), from: day.optional(), to: day.optional() })),
  reminders: z.array(z.string()),
  days: z.array(
    z.strictObject({
      day,
      oxygen: reading.optional(),
      carbonDioxide: reading.optional(),
      temperature: reading.optional(),
    }),
  ),
});

export const caRecordReport = z
  .strictObject({
    ...header('ca-record'),
    aid: z.string(),
    records: z.array(record),
    caution: z.string(),
  })
  .meta({
    title: 'Lotwright CA record',
    description: 'Printed by `lotwright ca-record --format json`.',
  });
