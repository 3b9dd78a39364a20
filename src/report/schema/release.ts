import { z } from 'zod';
import { day, findingCounts, header, place, week } from './parts';
import { otherWeek, roomReason, shortageCure } from './reason';
import { goodAcross, uncertainty } from './uncertainty';

const releaseRoom = z.strictObject({
  room: z.string(),
  fill: z.string(),
  varieties: z.array(z.string()),
  place,
  bins: z.number(),
  earliest: week,
  bestBefore: week,
  latest: week,
  noWeek: z.literal(true).optional().meta({
    description:
      'It can be opened in no week: its window is empty, or it holds more bins than are packed while it is emptied.',
  }),
  opens: week.optional().meta({ description: 'Absent for a room the schedule leaves closed.' }),
  emptyBy: week.optional(),
  packing: z.array(z.strictObject({ week, bins: z.number() })).meta({
    description: 'Bins packed in each week; the papers tell the same in whole bins.',
  }),
  cartonsPacked: z.number(),
  cartonsUnsold: z.number().meta({ description: 'Of them, packed and never sold: goes to processing.' }),
  pinned: z.boolean(),
  opened: z
    .literal(true)
    .optional()
    .meta({ description: 'It has been opened, in the week given; the bins are those left in it.' }),
  weekPassed: z
    .literal(true)
    .optional()
    .meta({ description: 'The week chosen here lies before the day looked from, and is no pin.' }),
  reason: roomReason,
});

const releaseWeek = z.strictObject({
  week,
  opens: z.array(z.string()).meta({ description: 'Rooms that open in the week.' }),
  binsPacked: z.number(),
  binsFromField: z.number().optional().meta({
    description: 'Of these, bins that are packed at harvest, from no room; absent where no lot is.',
  }),
  packingCapacity: z.number(),
  cartonsDemanded: z.number(),
  cartonsSold: z.number(),
  cartonsShort: z.number(),
  cartonsUnsold: z.number().meta({ description: 'Packed in the week and never sold: goes to processing.' }),
  cartonsInStock: z
    .number()
    .meta({ description: "Packed cartons that wait for their sale at the week's end." }),
});

const fromField = z.strictObject({
  lot: z.string(),
  variety: z.string(),
  place,
  bins: z.number().meta({ description: 'Its bins that are in no fill.' }),
  from: week.meta({ description: 'The first week in which it is there to be packed.' }),
  until: week.meta({ description: 'The last such week.' }),
  weeks: z.array(z.strictObject({ week, bins: z.number() })).meta({ description: 'Bins packed in each.' }),
  binsToProcessing: z.number().meta({
    description: 'Not packed by then: goes to processing, each bin for the cartons it would have given.',
  }),
});

const releaseShortage = z.strictObject({
  demand: z.string(),
  market: z.string(),
  variety: z.string(),
  packClass: z.string(),
  cartonsShort: z.number(),
  cartonsDemanded: z.number(),
  weeks: z.array(z.strictObject({ week, cartonsShort: z.number(), cure: shortageCure })),
});

const packedWait = z.strictObject({
  variety: z.string(),
  packClass: z.string(),
  packedOn: day,
  leavesOn: day,
  days: z.number(),
});

const packedWaits = z
  .strictObject({
    allowedDays: z.number(),
    longest: packedWait.optional().meta({ description: 'The cartons that wait longest.' }),
    tooLong: z.array(z.strictObject({ ...packedWait.shape, cartons: z.number() })).meta({
      description: 'By variety and class, where cartons wait longer than that; the longest of them.',
    }),
  })
  .meta({
    description:
      'How long packed cartons wait, to the day: packed and sent out evenly over the working days of each week.',
  });

const valueParts = z.strictObject({
  sales: z.number().meta({ description: 'Gain.' }),
  unsold: z.number().meta({
    description:
      'Gain: packed fruit that is not sold, and fruit from the field that is never packed, at the processing price.',
  }),
  shortages: z.number().meta({ description: 'Cost.' }),
  waiting: z.number().meta({ description: 'Cost: packed cartons in stock at the end of a week.' }),
  risk: z.number().meta({ description: 'Cost: the risk of fruit below standard.' }),
  inAir: z.number().meta({ description: 'Cost: weeks that rooms in air wait to open.' }),
  changes: z.number().meta({ description: 'Cost: changes from the published schedule.' }),
  unevenWork: z.number().meta({
    description: 'Cost: bins by which the packhouse runs more or fewer in a week than in the one before.',
  }),
});

const fruit = z
  .strictObject({
    cartonsInRooms: z.number().meta({ description: 'All fruit of these rooms, as it was stored.' }),
    cartonsSold: z.number(),
    cartonsUnsold: z.number().meta({ description: 'Packed and not sold: goes to processing.' }),
    cartonsNotPacked: z
      .number()
      .meta({ description: 'Packed into no class: culls, and what is lost in storage.' }),
    cartonsLeftInRooms: z.number().meta({ description: 'In rooms that stay shut.' }),
    cartonsFromField: z
      .number()
      .optional()
      .meta({ description: 'All fruit of lots packed at harvest; comes on top of the first.' }),
    cartonsNeverPacked: z
      .number()
      .optional()
      .meta({ description: 'Of it, what is not packed in its weeks and goes to processing.' }),
  })
  .meta({
    description:
      "Where the fruit goes, in cartons' worth: that in rooms, with that from the field, is the sum of the others.",
  });

export const releaseReport = z
  .strictObject({
    ...header('release'),
    counts: findingCounts,
    currency: z.string(),
    value: z.number().meta({ description: 'The gains less the costs in `valueParts`.' }),
    valueParts,
    bound: z.number().optional().meta({ description: 'No schedule can be worth more than this.' }),
    gap: z.number().optional().meta({
      description:
        'Distance from the bound as a share: 0.02 is two per cent. Absent without a bound, and of a schedule that is worth nothing.',
    }),
    boundRestsOn: z.string(),
    provenOptimal: z.boolean(),
    stoppedEarly: z
      .boolean()
      .meta({ description: 'Stopped by the planner: the best schedule found until then.' }),
    violations: z
      .array(z.strictObject({ kind: z.string(), message: z.string() }))
      .meta({ description: 'What the independent checker finds wrong; empty for a good schedule.' }),
    conflicts: z
      .array(z.string())
      .meta({ description: 'Rooms that no schedule can open as the plan stands, one each, and why.' }),
    standing: z
      .strictObject({
        day: z
          .string()
          .meta({ description: 'The last day of which anything is recorded, or that of --as-of.' }),
        week: week.meta({ description: 'The first week that is still to come, or under way.' }),
        packingRecorded: z.boolean(),
        notRecorded: z
          .strictObject({
            missing: z.enum(['packing', 'sale']),
            before: week,
          })
          .optional()
          .meta({
            description:
              'Rooms were opened and no packing is recorded, or no sale: what was wanted in weeks before this one is told neither as sold nor as short.',
          }),
        cartonsInColdStore: z
          .number()
          .meta({ description: 'Packed and not sold by then; they go first to what is wanted.' }),
        cartonsFromColdStore: z
          .number()
          .meta({ description: 'Of them, cartons that fill what is wanted in the weeks they may wait.' }),
        cartonsWantedBefore: z.number().meta({
          description: 'Wanted in weeks that are past, and of the week under way what has left.',
        }),
        cartonsSoldBefore: z.number().meta({ description: 'Of them, sold.' }),
        opened: z.array(z.strictObject({ fill: z.string(), week })),
      })
      .optional()
      .meta({ description: 'Where the season stands; absent where nothing of it is recorded.' }),
    changes: z
      .strictObject({
        kept: z.int().meta({ description: 'Rooms that open in their published week.' }),
        cost: z.number().meta({ description: 'What the changes count in the value.' }),
        moved: z.array(
          z.strictObject({
            room: z.string(),
            fill: z.string(),
            from: week,
            to: week.optional(),
            opened: z.literal(true).optional().meta({ description: 'It was opened in that week.' }),
            kept: otherWeek.optional().meta({
              description: 'What keeping the published week would mean; absent for one that has passed.',
            }),
          }),
        ),
      })
      .optional()
      .meta({
        description: 'Changes from the published schedule, where one was given; without `to` left closed.',
      }),
    uncertainty: uncertainty.optional().meta({ description: 'With `--draws`: seasons that could come.' }),
    goodAcross: goodAcross.optional(),
    written: z
      .array(z.strictObject({ fill: z.string(), room: z.string(), file: z.string(), week }))
      .optional()
      .meta({ description: 'Weeks that were written into the plan.' }),
    totals: z.strictObject({
      bins: z.number(),
      binsPacked: z.number(),
      cartonsDemanded: z.number(),
      cartonsSold: z.number(),
      cartonsShort: z.number(),
      cartonsUnsold: z.number(),
    }),
    fruit: fruit.optional(),
    packedWait: packedWaits.optional(),
    today: day.optional().meta({ description: 'The day looked from.' }),
    weeks: z.array(releaseWeek),
    fromField: z
      .array(fromField)
      .optional()
      .meta({ description: 'Lots packed at harvest; absent where there are none.' }),
    rooms: z.array(releaseRoom),
    shortages: z.array(releaseShortage),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright release report', description: 'Printed by `lotwright release --format json`.' });
