import { z } from 'zod';

export const schemaListReport = z
  .strictObject({
    format: z.literal('lotwright-schema-list-report'),
    version: z.literal(1),
    schemas: z.array(z.strictObject({ name: z.string(), title: z.string(), description: z.string() })),
  })
  .meta({
    title: 'Lotwright schema list report',
    description: 'Printed by `lotwright schema --format json`.',
  });
