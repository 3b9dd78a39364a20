import { z } from 'zod';
import { SET_BY, TASK_KINDS } from '../papers/account';
import { day, header, measure, week } from './parts';

const setBy = z.enum(SET_BY).meta({
  description:
    'What sets the opening week: the room was `opened`, a `pin` of the plan, weeks `published` before (`--keep-weeks`), the `quick` schedule, or a schedule `found` by the solver. Absent for a room that stays shut.',
});

const weekBins = z.strictObject({ week, bins: z.int() });

const paperLot = z.strictObject({
  lot: z.string(),
  variety: z.string(),
  grower: z.string().optional(),
  block: z.string().optional(),
  bins: z.int(),
  fruit: measure.optional(),
  firmness: measure.optional().meta({ description: 'At the maturity test.' }),
});

const paperRoom = z.strictObject({
  room: z.string(),
  fill: z.string(),
  varieties: z.array(z.string()),
  lots: z.array(paperLot),
  growers: z.array(z.string()),
  bins: z.int(),
  fruit: measure.optional(),
  regime: z.string().optional(),
  temperature: measure.optional(),
  oxygen: measure.optional(),
  carbonDioxide: measure.optional(),
  nitrogen: z.string().optional(),
  scrubber: z.string().optional(),
  firstBin: day.optional(),
  lastBin: day.optional(),
  sealed: day.optional().meta({ description: 'Absent for a room kept in air.' }),
  fivePercentBy: day.optional().meta({ description: 'The day by which oxygen has come to 5 %.' }),
  setPointBy: day.optional(),
  earliest: week.optional(),
  bestBefore: week.optional(),
  latest: week.optional(),
  opens: week.optional().meta({ description: 'Absent for a room the schedule leaves closed.' }),
  setBy: setBy.optional(),
  pinned: z.boolean().meta({ description: 'The opening week is pinned in the plan, so it stays.' }),
  emptyBy: week.optional(),
  packing: z.array(weekBins),
  binsLeft: z.int().meta({ description: 'Bins the schedule leaves in the room.' }),
  freshAirVolumes: z.number().optional().meta({
    description:
      "Fresh air to plan for, in volumes of the room's gas, before a crew is called; see `caution`.",
  }),
  freshAir: measure.optional(),
});

const paperTask = z.strictObject({
  kind: z.enum(TASK_KINDS),
  about: z.string().meta({ description: 'A fill, or the scrubber whose lime is changed.' }),
  which: z.string().meta({ description: 'Tells several of a kind apart; may be empty.' }),
  first: day,
  last: day.meta({ description: 'Inclusive.' }),
  rooms: z.array(z.string()),
  title: z.string(),
  detail: z.string(),
});

const paperSample = z.strictObject({
  room: z.string(),
  fill: z.string(),
  which: z.string(),
  first: day,
  last: day,
  what: z.string(),
  of: z.array(z.string()).meta({ description: 'Lots, or orchards: fruit is taken of each.' }),
  fruitEach: z.int(),
  tests: z.string(),
  source: z.string().meta({ description: 'The publication it follows.' }),
});

const scrubbingTurn = z.strictObject({
  scrubber: z.string(),
  room: z.string(),
  fill: z.string(),
  first: week,
  last: week,
  hoursADay: z.number().meta({
    description: "At most; all of a scrubber's hours are given out to its rooms.",
  }),
  hoursNeeded: z.number().meta({
    description: 'Hours a day that the set-point takes in the week that takes most.',
  }),
});

const paperWeek = z.strictObject({
  week,
  bins: z.int(),
  capacity: z.int().meta({ description: 'Bins the packhouse can run.' }),
  cartonsWanted: z.int(),
  cartonsSold: z.int(),
  cartonsShort: z.int(),
  cartonsUnsold: z.int(),
  cartonsInStock: z.int(),
});

const marketLine = z.strictObject({
  week,
  market: z.string(),
  variety: z.string(),
  packClass: z.string(),
  demands: z.array(z.string()),
  wanted: z.int(),
  sold: z.int(),
  short: z.int(),
});

const productLine = z.strictObject({
  week,
  variety: z.string(),
  packClass: z.string(),
  packed: z.int(),
  sold: z.int(),
  unsold: z.int(),
});

const lotPlace = z.strictObject({
  room: z.string(),
  fill: z.string(),
  bins: z.int(),
  fruit: measure.optional(),
  sealed: day.optional(),
  opens: week.optional(),
  setBy: setBy.optional(),
  emptyBy: week.optional(),
  packing: z.array(weekBins),
});

const fromField = z.strictObject({
  lot: z.string(),
  variety: z.string(),
  bins: z.int(),
  fruit: measure.optional(),
  packing: z.array(weekBins),
  binsLeft: z.int().meta({ description: 'Goes to processing unpacked.' }),
});

const growerLot = z.strictObject({
  lot: z.string(),
  grower: z.string().meta({ description: 'Empty where the plan names none.' }),
  variety: z.string(),
  block: z.string().optional(),
  pickedFirst: day.optional(),
  pickedLast: day.optional(),
  bins: z.int().optional().meta({ description: 'Received, else expected.' }),
  places: z.array(lotPlace),
});

export const papersReport = z
  .strictObject({
    ...header('papers'),
    for: z.enum(['packhouse', 'sales', 'cold-store', 'lab', 'growers', 'everyone']),
    grower: z.string().optional().meta({ description: 'Whose lots these are.' }),
    issued: day.optional(),
    schedule: z.string().meta({ description: 'Where the opening weeks come from, in a sentence or two.' }),
    packedBefore: z.string().optional().meta({
      description: 'Which of the cartons wanted and sold were packed before, in a season under way.',
    }),
    basis: z
      .string()
      .meta({ description: 'The same in one sentence that counts no rooms; empty where none opens.' }),
    conflicts: z.array(z.string()),
    weeks: z.array(paperWeek).optional(),
    rooms: z.array(paperRoom).optional(),
    tasks: z.array(paperTask).optional(),
    samples: z.array(paperSample).optional(),
    scrubbing: z.array(scrubbingTurn).optional(),
    market: z.array(marketLine).optional(),
    products: z.array(productLine).optional(),
    fromField: z.array(fromField).optional().meta({ description: 'Packed at harvest, from no room.' }),
    lots: z.array(growerLot).optional(),
    caution: z.string(),
  })
  .meta({
    title: 'Lotwright papers report',
    description: 'Written by `lotwright papers --as json`: the season as one reader is told of it.',
  });
