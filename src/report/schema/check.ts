import { z } from 'zod';
import { day, finding, findingCounts, header, severity } from './parts';

export const checkReport = z
  .strictObject({
    ...header('check'),
    failOn: severity.meta({ description: 'The least severity at which the check fails.' }),
    failed: z.boolean(),
    lookedFrom: z
      .strictObject({
        day,
        by: z.enum(['records', 'as-of']).meta({ description: 'The last day recorded, or as asked.' }),
      })
      .optional()
      .meta({
        description: 'The day from whose end the plan is looked at; absent where nothing is recorded.',
      }),
    counts: findingCounts,
    findings: z.array(finding),
  })
  .meta({ title: 'Lotwright check report', description: 'Printed by `lotwright check --format json`.' });
