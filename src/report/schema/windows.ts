import { z } from 'zod';
import { day, findingCounts, header, measure, place, week } from './parts';

const windowEdge = z.strictObject({
  week,
  limit: z
    .string()
    .meta({ description: 'What sets it: storage life, firmness, law, cooling and gas, season.' }),
  lot: z.string().optional(),
});

const windowRow = z.strictObject({
  room: z.string(),
  fill: z.string(),
  varieties: z.array(z.string()),
  regime: z.string().optional(),
  place,
  bins: measure.optional(),
  sealed: day.optional(),
  earliest: windowEdge.optional(),
  bestBefore: windowEdge.optional(),
  latest: windowEdge.optional(),
  weeksWide: z.int().optional(),
  empty: z.boolean().optional().meta({ description: 'The latest week lies before the earliest.' }),
  pinned: week.optional(),
  chosen: week.optional().meta({ description: 'Without a pin: the week a quick schedule opens it in.' }),
  weekPassed: z
    .literal(true)
    .optional()
    .meta({ description: 'The week chosen lies before the day asked for, and is no pin.' }),
  status: z
    .enum(['not yet', 'within window', 'past best before', 'past latest', 'pinned week past'])
    .optional()
    .meta({ description: 'Where the day asked for lies; absent outside the season or without a window.' }),
});

export const windowsReport = z
  .strictObject({
    ...header('windows'),
    counts: findingCounts,
    today: day,
    confidence: measure.optional(),
    rooms: z.array(windowRow),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright windows report', description: 'Printed by `lotwright windows --format json`.' });
