import { z } from 'zod';
import { day, findingCounts, header, measure } from './parts';

const use = z.strictObject({
  id: z.string(),
  use: measure.optional(),
  share: measure.optional().meta({ description: 'Of what it can give.' }),
  taken: measure.optional().meta({ description: 'What is given of it, where that is less.' }),
  mostBy: z.array(z.string()).meta({ description: 'The fills that ask most of it, most first.' }),
});

const period = z.strictObject({
  from: day.meta({ description: "The day, or the week's Monday." }),
  refrigeration: z
    .array(use)
    .meta({ description: 'What its rooms ask for, mean of the day; of a week, its highest day.' }),
  nitrogen: z.array(use).meta({ description: 'Hours it runs.' }),
  scrubbing: z.array(use).meta({ description: 'Time its rooms need, of the time it has.' }),
  powerKwh: z.number().optional().meta({
    description:
      "Refrigeration, the rooms' fans and lights, and nitrogen and scrubbers where their power is stated.",
  }),
  cost: measure.optional(),
});

const kind = z.enum(['places', 'cooler', 'refrigeration', 'nitrogen', 'scrubber']);

export const plantReport = z
  .strictObject({
    ...header('plant'),
    counts: findingCounts,
    by: z.enum(['days', 'weeks']).optional(),
    periods: z.array(period),
    peaks: z.array(
      z.strictObject({
        kind: z.enum(['refrigeration', 'nitrogen', 'scrubbing']),
        id: z.string(),
        from: day.meta({ description: 'The day; for nitrogen, the Monday of the week.' }),
        use: measure.optional(),
        share: measure.optional(),
        taken: measure.optional().meta({ description: 'What is given of it, where that is less.' }),
        because: z.array(z.string()).meta({ description: 'The fills that ask most of it then.' }),
      }),
    ),
    powerKwh: z.number().optional(),
    cost: measure.optional(),
    notInPower: z.array(z.string()).optional().meta({
      description: 'Filled rooms without a refrigeration group: the power of their cooling is not known.',
    }),
    crop: z
      .strictObject({
        change: z.number().meta({ description: 'Per cent more (or less) fruit of every lot.' }),
        passes: z
          .array(z.strictObject({ kind, id: z.string(), from: day, shareNow: z.number(), share: z.number() }))
          .meta({ description: 'What is asked for more than it gives, the first to be so first.' }),
      })
      .optional(),
  })
  .meta({
    title: 'Lotwright plant report',
    description: 'Printed by `lotwright gas --calendar` and `lotwright gas --crop` with `--format json`.',
  });
