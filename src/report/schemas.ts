import { z } from 'zod';

/**
 * The shapes of every JSON report the command line prints. The JSON Schemas in `schemas/` are made from these; the
 * rest of the program takes only their types, so that the library is not loaded at run time.
 *
 * A key is absent where the plan lacks what its value needs. Days are ISO 8601 calendar dates, weeks ISO 8601 weeks.
 */

const measure = z
  .strictObject({
    value: z.number(),
    unit: z.string().meta({
      description: 'As the plan language spells it: `m3`, `°C`, `kg/day`; empty for a pure number.',
    }),
  })
  .meta({ description: 'A value in the units the report is in; never text that has to be read back.' });

const day = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2}$/)
  .meta({ description: 'ISO 8601 calendar date.' });
const week = z
  .string()
  .regex(/^-?\d{4,6}-W\d{2}$/)
  .meta({ description: 'ISO 8601 week.' });

const place = z
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

const severity = z.enum(['error', 'warning', 'notice']);
const knownValues = ['published', 'common practice', 'from memory'] as const;

const source = z.strictObject({ citation: z.string(), known: z.enum(knownValues) });

const plan = z
  .strictObject({ season: z.string().optional(), files: z.array(z.string()) })
  .meta({ description: 'The plan the report is about: its name and its files.' });

const findingCounts = z
  .strictObject({ errors: z.int(), warnings: z.int(), notices: z.int() })
  .meta({ description: 'Findings by severity; `lotwright check` prints them.' });

/** What every report begins with. */
function header<const N extends string>(name: N) {
  return {
    format: z.literal(`lotwright-${name}-report` as const),
    version: z.literal(1).meta({ description: 'Grows when a key changes its meaning or goes.' }),
    plan,
    units: z.enum(['metric', 'us']),
  };
}

const finding = z.strictObject({
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

export const checkReport = z
  .strictObject({
    ...header('check'),
    failOn: severity.meta({ description: 'The least severity at which the check fails.' }),
    failed: z.boolean(),
    counts: findingCounts,
    findings: z.array(finding),
  })
  .meta({ title: 'Lotwright check report', description: 'Printed by `lotwright check --format json`.' });

const roomRow = z.strictObject({
  room: z.string(),
  fill: z.string().optional(),
  varieties: z.array(z.string()),
  regime: z.string().optional(),
  place,
  firstBin: day.optional(),
  lastBin: day.optional(),
  sealed: day.optional(),
  volume: measure.optional(),
  places: measure.optional(),
  placesByGeometry: measure.optional(),
  bins: measure.optional(),
  utilisation: measure.optional(),
  fruit: measure.optional(),
  freeGasVolume: measure.optional(),
  peakCooling: measure.optional(),
  holdingCooling: measure.optional(),
  coolerCapacity: measure.optional(),
});

export const roomsReport = z
  .strictObject({
    ...header('rooms'),
    counts: findingCounts,
    rooms: z.array(roomRow).meta({ description: 'One for each fill, and one for each room without a fill.' }),
    totals: z.strictObject({
      rooms: z.int(),
      filledRooms: z.int(),
      places: measure.optional(),
      bins: measure.optional(),
      fruit: measure.optional(),
    }),
    varieties: z.array(
      z.strictObject({
        variety: z.string(),
        rooms: z.int(),
        bins: measure.optional(),
        fruit: measure.optional(),
      }),
    ),
  })
  .meta({ title: 'Lotwright rooms report', description: 'Printed by `lotwright rooms --format json`.' });

const gasRow = z.strictObject({
  room: z.string(),
  fill: z.string(),
  varieties: z.array(z.string()),
  regime: z.string().optional(),
  place,
  oxygen: measure.optional(),
  carbonDioxide: measure.optional(),
  temperature: measure.optional(),
  carbonDioxideAtFilling: measure.optional(),
  carbonDioxideInStore: measure.optional(),
  carbonDioxideInStoreLow: measure.optional(),
  carbonDioxideInStoreHigh: measure.optional(),
  scrubber: z.string().optional(),
  limePerMonth: measure.optional(),
  nitrogen: z.string().optional(),
  nitrogenVolume: measure.optional(),
  nitrogenHours: measure.optional(),
  nitrogenShortfall: z.string().optional(),
  leakShareOfFruitUse: measure.optional(),
  freshAirVolumes: measure.optional().meta({
    description: 'Planning figure for ventilation before a crew is called; never says that entry is safe.',
  }),
});

const loadWeek = z.strictObject({ week, load: measure.optional(), share: measure.optional() });

export const gasReport = z
  .strictObject({
    ...header('gas'),
    counts: findingCounts,
    rooms: z.array(gasRow),
    scrubbers: z.array(
      z.strictObject({
        scrubber: z.string(),
        rooms: z.array(z.string()),
        place,
        capacity: measure
          .optional()
          .meta({ description: 'What it removes at the carbon dioxide its rooms hold.' }),
        settlesAt: measure.optional(),
        peak: loadWeek.optional(),
        weeks: z.array(loadWeek),
      }),
    ),
    nitrogen: z.array(
      z.strictObject({
        source: z.string(),
        rooms: z.array(z.string()),
        place,
        weeks: z.array(z.strictObject({ week, hours: measure.optional(), share: measure.optional() })),
      }),
    ),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright gas report', description: 'Printed by `lotwright gas --format json`.' });

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
  status: z
    .enum(['not yet', 'open to plan', 'past best before', 'past latest'])
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

const releaseRoom = z.strictObject({
  room: z.string(),
  fill: z.string(),
  varieties: z.array(z.string()),
  place,
  bins: z.number(),
  earliest: week,
  bestBefore: week,
  latest: week,
  opens: week.optional().meta({ description: 'Absent for a room the schedule leaves closed.' }),
  emptyBy: week.optional(),
  pinned: z.boolean(),
});

const releaseWeek = z.strictObject({
  week,
  opens: z.array(z.string()).meta({ description: 'Rooms that open in the week.' }),
  binsPacked: z.number(),
  packingCapacity: z.number(),
  cartonsDemanded: z.number(),
  cartonsSold: z.number(),
  cartonsShort: z.number(),
  cartonsProcessed: z.number(),
});

const releaseShortage = z.strictObject({
  demand: z.string(),
  market: z.string(),
  variety: z.string(),
  packClass: z.string(),
  cartonsShort: z.number(),
  cartonsDemanded: z.number(),
  weeks: z.array(z.strictObject({ week, cartonsShort: z.number() })),
});

export const releaseReport = z
  .strictObject({
    ...header('release'),
    counts: findingCounts,
    currency: z.string(),
    value: z.number().meta({ description: 'Sales and processing less shortage, waiting and risk.' }),
    bound: z.number().optional().meta({ description: 'No schedule can be worth more than this.' }),
    gap: z
      .number()
      .optional()
      .meta({ description: 'Distance from the bound as a share: 0.02 is two per cent.' }),
    boundRestsOn: z.string(),
    provenOptimal: z.boolean(),
    stoppedEarly: z
      .boolean()
      .meta({ description: 'Stopped by the planner: the best schedule found until then.' }),
    violations: z
      .array(z.strictObject({ kind: z.string(), message: z.string() }))
      .meta({ description: 'What the independent checker finds wrong; empty for a good schedule.' }),
    conflicts: z.array(z.string()),
    totals: z.strictObject({
      bins: z.number(),
      binsPacked: z.number(),
      cartonsDemanded: z.number(),
      cartonsSold: z.number(),
      cartonsShort: z.number(),
      cartonsProcessed: z.number(),
      sales: z.number(),
      shortageCost: z.number(),
    }),
    weeks: z.array(releaseWeek),
    rooms: z.array(releaseRoom),
    shortages: z.array(releaseShortage),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright release report', description: 'Printed by `lotwright release --format json`.' });

const stepCommon = {
  id: z.string(),
  name: z.string(),
  value: z.number(),
  unit: z.string().meta({ description: 'The unit the value is computed in; formulas hold in these units.' }),
  shown: measure.optional(),
};

const step = z.discriminatedUnion('kind', [
  z.strictObject({ ...stepCommon, kind: z.literal('plan'), place, text: z.string() }),
  z.strictObject({ ...stepCommon, kind: z.literal('counted'), what: z.string(), places: z.array(place) }),
  z.strictObject({ ...stepCommon, kind: z.literal('reference'), source }),
  z.strictObject({
    ...stepCommon,
    kind: z.literal('computed'),
    formula: z.string(),
    inputs: z
      .record(z.string(), z.string())
      .meta({ description: 'The step that each name in the formula stands for.' }),
    source: source.optional(),
  }),
]);

export const explainReport = z
  .strictObject({
    ...header('explain'),
    subject: z.strictObject({
      kind: z.string(),
      id: z.string(),
      summary: z.string().optional(),
      places: z.array(place),
    }),
    figures: z.array(
      z.strictObject({ id: z.string(), name: z.string(), step: z.string(), shown: measure.optional() }),
    ),
    steps: z
      .array(step)
      .meta({ description: 'Inputs before what is computed from them; a shared input once.' }),
    page: z.string().optional().meta({ description: "For a finding's code: its page, as Markdown." }),
    findings: z.array(finding),
  })
  .meta({ title: 'Lotwright explain report', description: 'Printed by `lotwright explain --format json`.' });

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

export type CheckReport = z.output<typeof checkReport>;
export type RoomsReport = z.output<typeof roomsReport>;
export type GasReport = z.output<typeof gasReport>;
export type WindowsReport = z.output<typeof windowsReport>;
export type ReleaseReport = z.output<typeof releaseReport>;
export type ExplainReport = z.output<typeof explainReport>;
export type SchemaListReport = z.output<typeof schemaListReport>;
export type FindingJson = z.output<typeof finding>;
export type FindingCounts = z.output<typeof findingCounts>;

/** By the name of the file in `schemas/`, without `.schema.json`. */
export const reportSchemas: Readonly<Record<string, z.ZodType>> = {
  'check-report': checkReport,
  'rooms-report': roomsReport,
  'gas-report': gasReport,
  'windows-report': windowsReport,
  'release-report': releaseReport,
  'explain-report': explainReport,
  'schema-list-report': schemaListReport,
};
