import { z } from 'zod';
import { day, header, measure, week } from './parts';

const interval = z
  .strictObject({ value: measure, low: measure, high: measure })
  .meta({ description: 'A fitted value, and the limits between which it lies 95 times in 100.' });

const kind = z.enum(['respiration', 'leakage', 'firmness', 'packout', 'crop']);

const cause = z.enum([
  'between spans',
  'respiratory quotient',
  'sensor drift',
  'calibration',
  'coarse steps',
  'leak',
]);

const consequence = z.strictObject({
  what: z.string().meta({ examples: ['R2-gala: latest opening'] }),
  before: z.union([measure, week]),
  after: z.union([measure, week]),
});

const lesson = z.strictObject({
  id: z.string().meta({
    description: 'What `--write` takes: the kind and the entry.',
    examples: ['respiration/R2-gala'],
  }),
  kind,
  section: z.enum(['fills', 'rooms', 'lots']),
  entry: z.string(),
  values: z.array(
    z.strictObject({
      name: z.string(),
      before: measure
        .meta({ description: 'What the plan reckons with now; absent where it has nothing.' })
        .optional(),
      fitted: interval,
      told: z
        .boolean()
        .meta({ description: 'Whether what the plan reckons with now lies outside the interval.' }),
      parts: z
        .array(z.strictObject({ cause, below: measure, above: measure }))
        .meta({ description: 'Half of the interval from each cause alone.' })
        .optional(),
    }),
  ),
  series: z
    .array(
      z.strictObject({
        name: z.string(),
        points: z.array(
          z.strictObject({
            from: day,
            to: day,
            about: z.string().optional(),
            seen: measure.optional(),
            fitted: interval,
          }),
        ),
      }),
    )
    .meta({
      description: 'What was seen beside what was fitted; points without `seen` go on with the curve.',
    }),
  remarks: z.array(z.string()),
  consequences: z
    .array(consequence)
    .meta({ description: 'What changes in the plan where all lessons of its kind are taken.' }),
  writes: z.strictObject({
    file: z.string(),
    key: z.string(),
    value: z.string().meta({ description: 'As it is written, its source beside it.' }),
  }),
  written: z.boolean().meta({ description: 'Whether it is in the plan now.' }),
});

export const learnReport = z
  .strictObject({
    ...header('learn'),
    lessons: z.array(lesson),
    notLearned: z.array(
      z.strictObject({ kind, entry: z.string(), reason: z.string() }).meta({
        description: 'What records there are of, but from which nothing can be told.',
      }),
    ),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright learn report', description: 'Printed by `lotwright learn --format json`.' });
