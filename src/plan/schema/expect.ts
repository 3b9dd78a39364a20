import { z } from 'zod';
import { day, number, quantity, reference, text, week, weekSpan, wholeNumber } from './values';

/** What a plan promises: statements over what is computed from it, checked as tests are. */

const market = text({
  meaning: 'Only what this market orders.',
  example: 'home',
  default: 'all markets',
}).meta({ 'x-names': 'market' });

const packClass = text({
  meaning: 'Only this pack class.',
  example: 'first',
  default: 'all classes',
}).meta({ 'x-names': 'class' });

const from = week({
  meaning: 'The first week it is promised for.',
  example: '2026-W45',
  default: "the season's first",
});

const before = week({
  meaning: 'The week from which it is not promised any more.',
  example: '2027-W20',
  default: "promised to the season's end",
});

const orders = {
  market: market.optional(),
  variety: reference('varieties', {
    meaning: 'Only orders of this variety.',
    example: 'Gala',
    default: 'all varieties',
  }).optional(),
  class: packClass.optional(),
  from: from.optional(),
  before: before.optional(),
};

const mostLoad = quantity(
  'share',
  { meaning: 'The largest share of what it gives, in the heaviest week.', example: '85 %' },
  { above: 0, most: 1000 },
);

const load = { 'at-most': mostLoad, from: from.optional(), before: before.optional() };

export const expectation = z
  .strictObject({
    'no-shortage': z
      .strictObject(orders)
      .meta({
        description: 'Every carton that these orders ask for is delivered.',
        examples: [{ variety: 'Gala', before: '2027-W20' }],
      })
      .optional(),
    shortage: z
      .strictObject({
        ...orders,
        'at-most': wholeNumber('cartons', {
          meaning: 'Cartons that may be missing, all weeks together.',
          example: 400,
          default: 'any number',
        }).optional(),
        'at-least': wholeNumber('cartons', {
          meaning: 'Cartons that are missing at least: for orders that are known to be too large.',
          example: 0,
          default: '0',
        }).optional(),
      })
      .meta({
        description: 'How many cartons of these orders are not delivered.',
        examples: [{ market: 'export', 'at-most': 400 }],
      })
      .optional(),
    opens: z
      .strictObject({
        room: reference('rooms', { meaning: 'The room.', example: 'R3' }),
        before: week({
          meaning: 'It opens in an earlier week than this.',
          example: '2027-W09',
          default: 'at any time',
        }).optional(),
        after: week({
          meaning: 'It opens in a later week than this.',
          example: '2027-W04',
          default: 'at any time',
        }).optional(),
        in: weekSpan({
          meaning: 'It opens in one of these weeks.',
          example: '2027-W05..2027-W08',
          default: 'at any time',
        }).optional(),
        'before-room': reference('rooms', {
          meaning: 'It opens in an earlier week than this room.',
          example: 'R5',
          default: 'in any order',
        }).optional(),
      })
      .meta({
        description: 'When the schedule opens a room. One that it leaves closed is opened at no time.',
        examples: [{ room: 'R3', 'before-room': 'R5' }],
      })
      .optional(),
    window: z
      .strictObject({
        room: reference('rooms', { meaning: 'The room.', example: 'R3' }),
        'at-least': quantity('long time', {
          meaning: 'How long its opening window is at least, in whole weeks, both edges included.',
          example: '4 weeks',
        }),
      })
      .meta({
        description: 'How much time there is to open a room.',
        examples: [{ room: 'R3', 'at-least': '4 weeks' }],
      })
      .optional(),
    'scrubber-load': z
      .strictObject({
        scrubber: reference('scrubbers', { meaning: 'The scrubber.', example: 'S1' }),
        ...load,
      })
      .meta({
        description: "A scrubber's load in its heaviest week.",
        examples: [{ scrubber: 'S1', 'at-most': '85 %' }],
      })
      .optional(),
    'nitrogen-load': z
      .strictObject({
        nitrogen: reference('nitrogen', { meaning: 'The nitrogen source.', example: 'N1' }),
        ...load,
      })
      .meta({
        description: 'Hours asked of a nitrogen source in its heaviest week, of the hours the week has.',
        examples: [{ nitrogen: 'N1', 'at-most': '90 %' }],
      })
      .optional(),
    'refrigeration-load': z
      .strictObject({
        group: reference('refrigeration', { meaning: 'The refrigeration group.', example: 'engine-room' }),
        ...load,
      })
      .meta({
        description: "A refrigeration group's load on the heaviest day of its heaviest week.",
        examples: [{ group: 'engine-room', 'at-most': '95 %' }],
      })
      .optional(),
    'packhouse-use': z
      .strictObject({
        'at-most': quantity(
          'share',
          { meaning: 'The largest share of its bins in a week that has work.', example: '95 %' },
          { above: 0, most: 1000 },
        ),
        from: from.optional(),
        before: before.optional(),
      })
      .meta({
        description: 'Bins the packhouse runs in its busiest week, of those it can.',
        examples: [{ 'at-most': '95 %' }],
      })
      .optional(),
    'in-store': z
      .strictObject({
        variety: reference('varieties', { meaning: 'The variety.', example: 'Fuji' }),
        on: day({
          meaning: 'The day. What is packed in a week is out of store when the week begins.',
          example: '2027-04-01',
        }),
        'at-least': quantity('share', {
          meaning: 'Share of the bins stored that is still in the rooms at least.',
          example: '12 %',
          default: '0 %',
        }).optional(),
        'at-most': quantity('share', {
          meaning: 'Share of the bins stored that is still in the rooms at most.',
          example: '30 %',
          default: '100 %',
        }).optional(),
        bins: wholeNumber('bins', {
          meaning: 'Bins that are still in the rooms at least.',
          example: 500,
          default: '0',
        }).optional(),
      })
      .meta({
        description: 'How much of a variety is still in the rooms on a day.',
        examples: [{ variety: 'Fuji', on: '2027-04-01', 'at-least': '12 %' }],
      })
      .optional(),
    'grower-out': z
      .strictObject({
        grower: text({ meaning: "The grower's name, as the lots have it.", example: 'Hollow Farm' }).meta({
          'x-names': 'grower',
        }),
        by: week({ meaning: 'The last week in which any of it is packed.', example: '2027-W12' }),
      })
      .meta({
        description: "All of a grower's fruit in the rooms is packed.",
        examples: [{ grower: 'Hollow Farm', by: '2027-W12' }],
      })
      .optional(),
    'no-finding': z
      .strictObject({
        code: text({ meaning: "A finding's code.", example: 'room-left-closed' }).meta({ 'x-names': 'code' }),
      })
      .meta({
        description: 'The plan has no finding of a code. One that a comment allows is none.',
        examples: [{ code: 'room-left-closed' }],
      })
      .optional(),
    value: z
      .strictObject({
        'at-least': number({
          meaning: "The schedule's value at least, in the plan's currency.",
          example: 250000,
        }),
      })
      .meta({
        description:
          'What the schedule is worth: sales less all that it costs to be short, to wait or to risk.',
        examples: [{ 'at-least': 250000 }],
      })
      .optional(),
    because: text({
      meaning: 'Why it is promised. Told wherever it is broken.',
      example: "the retailer's contract",
      default: '',
    }).optional(),
  })
  .meta({
    description:
      'One promise: exactly one of the keys below, with what it speaks of, and `because` where you like.',
  });
