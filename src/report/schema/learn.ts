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

const effect = z
  .strictObject({
    kind: z.string(),
    text: z.string().meta({
      examples: ['R4-braeburn must be opened by 2027-W12, 2 weeks earlier than 2027-W14'],
    }),
    gravity: z
      .string()
      .meta({ description: 'error, closed, short, overload, warning, value, shift: the gravest first.' }),
    direction: z.enum(['worse', 'better', 'neither']),
  })
  .meta({
    description:
      'A window, an opening week, a load, an order or a finding that is another, by the thresholds of `policy: compare`; rooms keep their weeks where they can.',
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
  effects: z
    .array(effect)
    .meta({
      description:
        'What taking this lesson alone changes of the season, the worse first; empty where it changes nothing that is told apart. Absent of lessons that were not asked for and do not differ from the plan.',
    })
    .optional(),
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
    together: z
      .strictObject({
        lessons: z.array(z.string()).meta({ description: 'The lessons whose effects are told.' }),
        effects: z.array(effect),
      })
      .meta({ description: 'What taking all of them changes of the season; absent where it is one or none.' })
      .optional(),
    notLearned: z.array(
      z.strictObject({ kind, entry: z.string(), reason: z.string() }).meta({
        description: 'What records there are of, but from which nothing can be told.',
      }),
    ),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright learn report', description: 'Printed by `lotwright learn --format json`.' });
