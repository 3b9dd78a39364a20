import { z } from 'zod';
import { finding, findingCounts, header, severity } from './parts';

export const checkReport = z
  .strictObject({
    ...header('check'),
    failOn: severity.meta({ description: 'The least severity at which the check fails.' }),
    failed: z.boolean(),
    counts: findingCounts,
    findings: z.array(finding),
  })
  .meta({ title: 'Lotwright check report', description: 'Printed by `lotwright check --format json`.' });
