import { z } from 'zod';
import { finding, header, measure, place, week } from './parts';

const totals = z.strictObject({
  errors: z.int(),
  warnings: z.int(),
  promisesBroken: z.int(),
  fills: z.int().meta({ description: 'Rooms with fruit.' }),
  binsStored: z.number(),
  binsInNoRoom: z
    .number()
    .meta({ description: 'Bins of lots that no fill takes: packed at harvest or left over.' }),
  cartonsSold: z.number().optional(),
  cartonsShort: z.number().optional(),
  cartonsUnsold: z.number().optional().meta({ description: 'Packed and never sold: goes to processing.' }),
  value: measure.optional(),
});

const roomWeeks = z
  .strictObject({
    earliest: week.optional(),
    bestBefore: week.optional(),
    latest: week.optional(),
    opens: week.optional().meta({ description: 'Absent where the schedule leaves it closed.' }),
  })
  .meta({ description: 'Its opening window and the week the schedule opens it in.' });

const machineWeek = z.strictObject({ week, share: measure });

const amounts = z.strictObject({ sold: z.number(), short: z.number(), unsold: z.number() });

const scenarioName = {
  scenario: z.string(),
  says: z.string().optional(),
  builtIn: z.boolean().meta({ description: 'One of the stress tests, which no plan need hold.' }),
};

const consequence = z
  .strictObject({
    kind: z.string(),
    text: z.string(),
    gravity: z
      .string()
      .meta({ description: 'error, closed, short, overload, warning, value, shift: the gravest first.' }),
    direction: z.enum(['worse', 'better', 'neither']),
  })
  .meta({ description: 'A difference that reaches the thresholds of `policy: compare`.' });

const expectationChange = z.strictObject({ id: z.string(), claim: z.string(), why: z.string(), place });

export const whatIfReport = z
  .strictObject({
    ...header('whatif'),
    ...scenarioName,
    place: place.optional().meta({ description: 'Where the scenario stands in the plan.' }),
    weeks: z.enum(['of the base', 'of its own', 'none']).meta({
      description:
        "Whether the scenario keeps the base's weeks as far as it can, or has others since planning anew is worth a good deal more.",
    }),
    notApplied: z
      .array(z.strictObject({ message: z.string(), place }))
      .meta({ description: 'What the scenario says and does not fit the plan.' }),
    base: totals,
    over: totals.meta({ description: 'The same with the scenario laid over the plan.' }),
    roomsOverfilled: z.int().meta({
      description:
        'Rooms that hold too many bins only with the scenario; above 0 the values are not comparable.',
    }),
    consequences: z.array(consequence),
    rooms: z
      .array(
        z.strictObject({
          room: z.string(),
          fill: z.string(),
          base: roomWeeks.optional(),
          over: roomWeeks.optional(),
        }),
      )
      .meta({ description: 'Fills whose window or week differs; absent on the side that has none.' }),
    machines: z
      .array(
        z.strictObject({
          kind: z.enum(['scrubber', 'nitrogen', 'refrigeration']),
          id: z.string(),
          base: machineWeek.optional(),
          over: machineWeek.optional(),
        }),
      )
      .meta({ description: 'Shared equipment whose heaviest week differs.' }),
    products: z
      .array(
        z.strictObject({
          variety: z.string(),
          packClass: z.string(),
          base: amounts.optional(),
          over: amounts.optional(),
        }),
      )
      .meta({
        description: 'Varieties and classes of which other amounts are sold, short or unsold; cartons.',
      }),
    findings: z.strictObject({ new: z.array(finding), gone: z.array(finding) }),
    expectations: z.strictObject({
      broken: z.array(expectationChange).meta({ description: 'Kept in the base only.' }),
      mended: z.array(expectationChange).meta({ description: 'Kept in the scenario only.' }),
    }),
    caution: z.string(),
  })
  .meta({
    title: 'Lotwright what-if report',
    description: 'Printed by `lotwright whatif <scenario> --format json`.',
  });

export const whatIfListReport = z
  .strictObject({
    ...header('whatif-list'),
    scenarios: z.array(
      z.strictObject({
        ...scenarioName,
        place: place.optional(),
        gravest: consequence.optional().meta({ description: 'The worst it does; absent without --all.' }),
        cartonsShort: z.number().optional().meta({ description: 'Cartons short beyond those of the base.' }),
        value: measure.optional().meta({
          description:
            'What the schedule is worth more than that of the base; absent where rooms are overfilled.',
        }),
        roomsOverfilled: z
          .int()
          .optional()
          .meta({ description: 'Rooms that hold too many bins only with the scenario.' }),
        newErrors: z.int().optional().meta({ description: 'Errors beyond those of the base.' }),
        newWarnings: z.int().optional().meta({ description: 'Warnings beyond those of the base.' }),
        morePromisesBroken: z
          .int()
          .optional()
          .meta({ description: 'Broken promises beyond those of the base.' }),
        promisesBroken: z.array(z.string()).optional().meta({ description: 'Kept in the base only.' }),
      }),
    ),
    caution: z.string().optional(),
  })
  .meta({
    title: 'Lotwright list of scenarios',
    description:
      'Printed by `lotwright whatif --list --format json` and `lotwright whatif --all --format json`.',
  });
