import { z } from 'zod';
import {
  count,
  daySpan,
  entries,
  money,
  number,
  quantity,
  reference,
  text,
  weekSpan,
  wholeNumber,
} from './values';

export const demand = z.strictObject({
  market: text({ meaning: 'Who buys.', example: 'home' }),
  variety: reference('varieties', { meaning: 'What they buy.', example: 'Gala' }),
  class: text({ meaning: 'The pack class, as named under packing.', example: 'first' }),
  weeks: weekSpan({ meaning: 'The weeks it holds for, first and last.', example: '2026-W40..2027-W20' }),
  cartons: wholeNumber('cartons', { meaning: 'Cartons wanted each week.', example: 4200 }),
  'by-week': z
    .record(z.string().regex(/^\d{4}-W(?:0[1-9]|[1-4]\d|5[0-3])$/), count('cartons'))
    .meta({
      description: 'Weeks that differ, and the cartons wanted in them.',
      examples: [{ '2026-W51': 6800 }],
      'x-key-kind': 'week',
    })
    .optional(),
  price: money({ meaning: 'Price of a carton.', example: 21.5 }),
  'price-of-shortage': money({
    meaning: 'What a carton that is not delivered costs beyond its price.',
    example: 8,
    default: 'half the price',
  }).optional(),
  'least-firmness': quantity('force', {
    meaning:
      'Firmness the buyer accepts at least. A lot expected (the median) to be softer at the end of a week is not sold to it in that week.',
    example: '60 N',
  }).optional(),
});

const packout = z.strictObject({
  shares: z
    .record(
      z.string().regex(/^[A-Za-z][A-Za-z0-9 _-]*$/),
      quantity('share', { meaning: 'Share of the fruit that packs into the class.', example: '62 %' }),
    )
    .meta({
      description:
        'Share of the fruit that packs into each class. The rest is culls: it packs into no class and brings nothing here. Packed fruit that is not sold goes to processing.',
      examples: [{ first: '62 %', second: '17 %' }],
      'x-key-kind': 'class',
    }),
  'loss-a-month': quantity('share', {
    meaning: 'How much of each share is lost for each month in store.',
    example: '1.2 %',
    default: '1 %',
  }).optional(),
});

export const packing = z
  .strictObject({
    'bins-a-week': wholeNumber(
      'bins',
      {
        meaning:
          'Bins the packhouse can run in a full week; the first and last week of the season count their working days within it.',
        example: 2600,
      },
      1,
    ),
    'days-a-week': number(
      { meaning: 'Working days in a full week.', example: 5, default: '5' },
      1,
      7,
    ).optional(),
    closed: z
      .array(
        daySpan({ meaning: 'A day or days the packhouse is closed.', example: '2026-12-24..2026-12-27' }),
      )
      .meta({ description: "Days without packing; they count from the week's working days." })
      .optional(),
    'days-to-empty': quantity('long time', {
      meaning:
        'Time in which an opened room must be packed out, from the Monday of the week it opens in. Of the week it ends within, only the working days up to there count: 10 days are a week and what is worked to the Wednesday after.',
      example: '14 days',
      default: '14 days',
    }).optional(),
    'packed-wait': quantity('long time', {
      meaning:
        'How long packed cartons may wait in the cold store, counted in whole weeks: 14 days are sold in the week they are packed in or the two after, 13 days in that week or the next.',
      example: '14 days',
      default: '14 days',
    }).optional(),
    'cost-of-waiting': money({
      meaning: 'What a packed carton costs for each week it waits.',
      example: 0.15,
      default: '0',
    }).optional(),
    'processing-price': money({
      meaning: "What a carton's worth of fruit brings that is packed but not sold.",
      example: 3,
      default: '0',
    }).optional(),
    packout: entries(packout, 'Packout by variety.', { 'x-key-refers-to': 'varieties' }),
  })
  .meta({ description: 'The packhouse. Stands once in a plan.' });
