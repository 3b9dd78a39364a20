import { z } from 'zod';

/** What the reports' shapes share. */

export const measure = z
  .strictObject({
    value: z.number(),
    unit: z.string().meta({
      description: 'As the plan language spells it: `m3`, `°C`, `kg/day`; empty for a pure number.',
    }),
  })
  .meta({ description: 'A value in the units the report is in; never text that has to be read back.' });

export const day = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .meta({ description: 'ISO 8601 calendar date.' });
export const week = z
  .string()
  .regex(/^-?\d{4,6}-W\d{2}$/)
  .meta({ description: 'ISO 8601 week.' });

export const place = z
  .strictObject({
    file: z.string(),
    line: z.int().min(1),
    column: z.int().min(1),
    endLine: z.int().min(1),
    endColumn: z.int().min(1),
  })
  .meta({
    description:
      'A place in the plan. Lines and columns count from 1, columns in UTF-16 code units; the end is exclusive.',
  });

export const severity = z.enum(['error', 'warning', 'notice']);
const knownValues = ['published', 'common practice', 'from memory'] as const;

export const source = z.strictObject({ citation: z.string(), known: z.enum(knownValues) });

const notRead = z.strictObject({ errors: z.int(), first: place }).meta({
  description:
    'Errors in the text of the plan, and the first: what stands there could not be read and is left out of every figure. Absent where all of it was read.',
});

const plan = z
  .strictObject({ season: z.string().optional(), files: z.array(z.string()), notRead: notRead.optional() })
  .meta({ description: 'The plan the report is about: its name and its files.' });

export const findingCounts = z
  .strictObject({ errors: z.int(), warnings: z.int(), notices: z.int() })
  .meta({ description: 'Findings by severity; `lotwright check` prints them.' });

/** What every report begins with. */
export function header<const N extends string>(name: N) {
  return {
    format: z.literal(`lotwright-${name}-report` as const),
    version: z.literal(1).meta({ description: 'Grows when a key changes its meaning or goes.' }),
    plan,
    units: z.enum(['metric', 'us']),
  };
}

export const finding = z.strictObject({
  code: z.string(),
  family: z.string(),
  severity,
  message: z.string(),
  place,
  related: z.array(z.strictObject({ place, message: z.string() })),
  fixes: z.array(
    z.strictObject({
      title: z.string(),
      edits: z.array(z.strictObject({ place, newText: z.string() })),
    }),
  ),
  fingerprint: z.string().meta({ description: 'Stays the same when lines move or messages are reworded.' }),
});
