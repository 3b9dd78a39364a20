import { z } from 'zod';

export const outlineReport = z
  .strictObject({
    format: z.literal('lotwright-outline-report'),
    version: z.literal(1).meta({ description: 'Grows when a key changes its meaning or goes.' }),
    file: z.string(),
    lines: z.array(z.string()).meta({
      description: 'A value each, with its whole path, sorted.',
      examples: [['lots L12 bins: 140']],
    }),
  })
  .meta({ title: 'Lotwright outline report', description: 'Printed by `lotwright outline --format json`.' });
