import { z } from 'zod';
import { day, header, measure, week } from './parts';

const bins = z.number();

const crop = z.strictObject({
  varieties: z.array(
    z.strictObject({
      variety: z.string(),
      lots: z.int(),
      lotsIn: z.int().meta({ description: 'Lots of which everything has come in.' }),
      estimate: bins.meta({ description: 'Bins estimated before harvest; what came in where nobody had.' }),
      received: bins,
      toCome: bins.meta({ description: 'Still expected of lots of which not everything has come in.' }),
      expected: bins.meta({ description: 'Received and to come.' }),
      change: bins.meta({ description: 'Expected now, less the estimate.' }),
    }),
  ),
  fillsToCome: z
    .array(
      z.strictObject({
        fill: z.string(),
        room: z.string(),
        planned: bins,
        willHold: bins.meta({ description: 'Of the lots planned for it, what is left for it.' }),
        moreOfItsLots: bins.meta({ description: 'What is left over of its lots and finds room in it.' }),
        places: z.number().optional(),
        placesEmpty: z.number().optional(),
      }),
    )
    .meta({ description: 'Fills whose last bin is not in yet; earlier ones are served first.' }),
  withoutPlace: z
    .array(z.strictObject({ lot: z.string(), variety: z.string(), bins }))
    .meta({ description: 'Bins that no fill has a place for, and that are not packed at harvest.' }),
});

const step = z.strictObject({
  step: z.enum(['first-bin', 'last-bin', 'cool', 'sealed', 'low-oxygen', 'set-point', 'opened', 'emptied']),
  due: day
    .meta({
      description:
        'As planned; what no plan says, as computed from what has happened. An opening is due in a week, of which this is the Monday.',
    })
    .optional(),
  dueFrom: z.enum(['plan', 'computed', 'schedule']).optional(),
  happened: day.optional(),
  notRecorded: z
    .literal(true)
    .meta({
      description:
        'No opening is recorded: `happened` is the first day of its packing, by which it was opened at the latest.',
    })
    .optional(),
  daysLate: z
    .int()
    .meta({
      description: 'After the day it was due, or its week: when it happened, or up to now where it has not.',
    })
    .optional(),
});

const rooms = z.array(
  z.strictObject({
    room: z.string(),
    fill: z.string(),
    varieties: z.array(z.string()),
    state: z.enum(['to come', 'filling', 'filled', 'sealed', 'holding', 'opened', 'emptied']),
    steps: z.array(step),
    gasNotTold: z
      .string()
      .meta({ description: 'Why no day can be told by which the sealed room comes to 5 % oxygen.' })
      .optional(),
  }),
);

const stock = z.strictObject({
  rooms: z
    .array(
      z.strictObject({
        room: z.string(),
        fill: z.string(),
        variety: z.string(),
        binsIn: bins,
        binsPacked: bins,
        binsThere: bins,
        binsNotRecorded: bins.meta({
          description:
            'Bins in, less packed and there: of a room told to be empty, or packed beyond what went in.',
        }),
        fruitThere: measure.optional(),
        cartonsPacked: z.array(z.strictObject({ packClass: z.string(), cartons: z.number() })),
      }),
    )
    .meta({ description: 'Rooms whose last bin is in.' }),
  elsewhere: z
    .array(
      z.strictObject({
        variety: z.string(),
        received: bins,
        inRooms: bins.meta({ description: 'Gone into rooms whose last bin is in.' }),
        packedFromField: bins,
        elsewhere: bins.meta({ description: 'The rest: in rooms that are being filled, or in the yard.' }),
        beyondReceived: bins
          .meta({
            description:
              'In rooms and packed beyond what is recorded as received: the records contradict each other.',
          })
          .optional(),
      }),
    )
    .meta({ description: 'By variety, of those received.' }),
  cartons: z.array(
    z.strictObject({
      variety: z.string(),
      packClass: z.string(),
      packed: z.number(),
      sold: z.number(),
      inStock: z.number().meta({ description: 'Packed and not sold.' }),
      beyondPacked: z
        .number()
        .meta({ description: 'Sold beyond what is recorded as packed: the records contradict each other.' })
        .optional(),
    }),
  ),
});

const market = z.strictObject({
  through: week.meta({ description: 'The last week that is over.' }).optional(),
  salesRecorded: z.boolean(),
  lines: z.array(
    z.strictObject({
      market: z.string(),
      variety: z.string(),
      packClass: z.string(),
      wanted: z.number().meta({ description: 'Cartons of the weeks that are over.' }),
      sold: z
        .number()
        .meta({ description: 'Cartons sold in the weeks that are over: `met` and `beyond`.' })
        .optional(),
      met: z
        .number()
        .meta({ description: 'Of those wanted, sold in the week in which they were wanted.' })
        .optional(),
      short: z
        .number()
        .meta({ description: 'Wanted and not sold in their week; no other week makes them good.' })
        .optional(),
      beyond: z.number().meta({ description: 'Sold in a week beyond what it wanted.' }).optional(),
      wantedLater: z.number().meta({ description: 'Cartons of the weeks that are to come.' }),
    }),
  ),
});

const work = z.strictObject({
  from: day,
  to: day,
  readers: z.array(
    z.strictObject({
      reader: z.enum(['packhouse', 'sales', 'cold-store', 'lab', 'growers']),
      grower: z.string().optional(),
      tasks: z.array(
        z.strictObject({
          kind: z.string(),
          first: day,
          last: day,
          rooms: z.array(z.string()),
          hoursADay: z
            .strictObject({ given: z.number(), needed: z.number() })
            .meta({
              description:
                "Of scrubbing, at most: all of a scrubber's hours are given out to its rooms; what is needed holds the room at its set-point.",
            })
            .optional(),
          title: z.string(),
          detail: z.string(),
        }),
      ),
    }),
  ),
});

export const statusReport = z
  .strictObject({
    ...header('status'),
    asOf: day.meta({ description: 'What was known at the end of this day.' }),
    progressRecorded: z.boolean(),
    errorsInReadings: z
      .array(z.strictObject({ code: z.string(), message: z.string() }))
      .meta({
        description:
          'Findings of the readings up to that day that are errors: they come before any work at their rooms.',
      })
      .optional(),
    crop,
    rooms,
    stock,
    market,
    work,
    caution: z.string(),
  })
  .meta({
    title: 'Lotwright status report',
    description:
      'Printed by `lotwright status --format json`. Of each variety `received` is `inRooms`, `packedFromField` and ' +
      '`elsewhere`, less `beyondReceived`; of each room `binsIn` is `binsPacked`, `binsThere` and `binsNotRecorded`.',
  });
