import { z } from 'zod';
import { header, measure, place, severity, week } from './parts';

const thing = z.strictObject({ kind: z.string(), id: z.string() }).meta({
  description: 'A thing of a plan by its section and name; of a section that stands once its own name.',
});

const planValue = z.union([measure, z.strictObject({ text: z.string() })]).meta({
  description: 'A value of the plan in the units the report is in; words, days, weeks and lists as text.',
});

const change = z.strictObject({
  kind: z.enum([
    'added',
    'removed',
    'lot-moved',
    'bins-changed',
    'demand-changed',
    'demand-shifted',
    'override-changed',
    'pin-changed',
    'fill-moved',
    'regime-changed',
    'allowance-changed',
    'key-changed',
  ]),
  things: z
    .array(thing)
    .min(1)
    .meta({ description: 'The chief thing first; of a lot moved the lot, from where, to where.' }),
  key: z.string().optional().meta({ description: "The key in the plan's text." }),
  before: planValue.optional(),
  after: planValue.optional(),
  amount: planValue.optional().meta({ description: 'Bins moved, weeks shifted, cartons more or fewer.' }),
  text: z.string(),
  oldPlace: place.optional(),
  newPlace: place.optional(),
});

const amount = z
  .union([measure, week])
  .meta({ description: 'A measure, or the week of an edge or an opening.' });

const foundFinding = z.strictObject({ code: z.string(), severity, message: z.string(), place });

const about = z
  .strictObject({
    of: z.enum(['fill', 'equipment', 'product', 'season']),
    fill: z.string().optional(),
    room: z.string().optional(),
    thing: thing.optional(),
    variety: z.string().optional(),
    packClass: z.string().optional(),
  })
  .meta({ description: 'What a consequence is of.' });

const gravity = z.enum(['error', 'closed', 'short', 'overload', 'warning', 'value', 'shift']).meta({
  description: 'How grave it is, the gravest first; `lotwright compare --help` says what makes each.',
});

const consequence = z.strictObject({
  kind: z.string(),
  key: z.string().meta({ description: 'The same whichever of the two plans is called the old one.' }),
  about,
  gravity,
  direction: z.enum(['worse', 'better', 'neither']),
  text: z.string(),
  before: amount.optional(),
  after: amount.optional(),
  limit: measure.optional(),
  weeks: z.array(z.strictObject({ week, before: measure, after: measure })).optional(),
  orders: z
    .array(z.strictObject({ demand: z.string(), before: measure, after: measure }))
    .optional()
    .meta({ description: 'Of a shortage: the demands of which more or fewer cartons are short.' }),
  oldFinding: foundFinding.optional(),
  newFinding: foundFinding.optional(),
  causes: z
    .strictObject({
      parts: z.array(z.strictObject({ edits: z.array(z.int().min(0)).min(1), part: z.number().optional() })),
      together: z.number().optional(),
      onlyTogether: z.boolean(),
      untried: z.literal(true).optional(),
    })
    .meta({
      description:
        'Edits by their index, each with its part in the unit of the consequence (weeks of a week), and what they do together beyond the sum: the parts and that add up to the whole. Where there are more than six edits each part is what its edit does after those before it; with more than 24 some are made together, and which of the edits of one part it is cannot be told. `untried` where nothing was tried: the edits are then those nearest to what it is about.',
    }),
});

const totals = z.strictObject({
  errors: z.int(),
  warnings: z.int(),
  fills: z.int(),
  binsStored: measure,
  schedule: z
    .strictObject({ cartonsSold: measure, cartonsShort: measure, cartonsSurplus: measure, value: measure })
    .optional(),
});

export const compareReport = z
  .strictObject({
    ...header('compare'),
    caution: z.string(),
    old: z.strictObject({ name: z.string(), files: z.array(z.string()) }),
    new: z.strictObject({ name: z.string(), files: z.array(z.string()) }),
    failOn: z.enum(['error', 'closed', 'short', 'overload', 'warning', 'value', 'shift', 'never']),
    failed: z.boolean(),
    changes: z.array(change),
    renames: z.array(z.strictObject({ kind: z.string(), before: z.string(), after: z.string() })),
    edits: z
      .array(z.strictObject({ text: z.string(), things: z.array(thing), changes: z.array(z.int().min(0)) }))
      .meta({ description: 'Changes that only make sense together, by their index.' }),
    consequences: z
      .array(consequence)
      .meta({ description: 'The worse before the better, each the gravest first.' }),
    heldBack: z
      .array(z.strictObject({ kind: z.string(), count: z.int() }))
      .meta({ description: 'Differences below the thresholds, counted.' }),
    thresholds: z.strictObject({
      weeks: z.number(),
      cartons: z.number(),
      bins: z.number(),
      load: z.number(),
      value: z.number(),
    }),
    totals: z.strictObject({ old: totals, new: totals }).optional(),
    notComputed: z.array(z.strictObject({ side: z.enum(['old', 'new', 'both']), what: z.string() })),
    weeksOf: z.enum(['old', 'new', 'both']).optional().meta({
      description: 'For which plan the opening weeks were sought that both keep as far as they can.',
    }),
  })
  .meta({ title: 'Lotwright compare report', description: 'Printed by `lotwright compare --format json`.' });
