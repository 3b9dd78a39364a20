import { z } from 'zod';
import { MOST_COUNTED } from './most-counted';
import {
  count,
  day,
  entries,
  money,
  quantity,
  reference,
  sourceText,
  text,
  week,
  wholeNumber,
} from './values';

/** What has happened to a fill. Keyed by the fill; what is not given has not happened yet. */
export const progress = z.strictObject({
  'first-bin': day({ meaning: 'Day the first bin came in.', example: '2026-09-03' }).optional(),
  'last-bin': day({ meaning: 'Day the last bin came in.', example: '2026-09-08' }).optional(),
  lots: z
    .record(z.string().regex(/^[A-Za-z][A-Za-z0-9 ._/'-]*$/), count('bins'))
    .meta({
      description: 'The bins of each lot that went in. They count from the day of the last bin.',
      examples: [{ L001: 232, L002: 184 }],
      'x-key-refers-to': 'lots',
    })
    .optional(),
  cool: day({
    meaning: 'Day by which all of its fruit was seven-eighths cool.',
    example: '2026-09-12',
  }).optional(),
  sealed: day({ meaning: 'Day the door was sealed.', example: '2026-09-10' }).optional(),
  'low-oxygen': day({
    meaning: 'First day on which the oxygen was read at 5 % or less, which the rules for CA fruit ask for.',
    example: '2026-09-14',
  }).optional(),
  'set-point': day({
    meaning: "First day on which oxygen and carbon dioxide were read at the regime's set-points.",
    example: '2026-09-17',
  }).optional(),
  opened: day({ meaning: 'Day the seal was broken.', example: '2027-02-15' }).optional(),
  emptied: day({ meaning: 'Day the last bin left the room.', example: '2027-02-26' }).optional(),
});

const shareOfFruit = (what: string) =>
  quantity('share', { meaning: `Share of the sample's fruit with ${what}.`, example: '2 %' }).optional();

/** A quality test of stored fruit. */
export const sample = z.strictObject({
  lot: reference('lots', { meaning: 'The lot the fruit is of.', example: 'L001' }),
  fill: reference('fills', {
    meaning: 'The fill it was taken from.',
    example: 'R01-gala',
    default: 'all that the lot is in',
  }).optional(),
  taken: day({ meaning: 'Day it was taken.', example: '2027-01-12' }),
  fruit: wholeNumber('few', { meaning: 'Fruit tested.', example: 20 }, 1).optional(),
  firmness: quantity('force', {
    meaning: 'Flesh firmness by the 11 mm probe, mean.',
    example: '66 N',
  }).optional(),
  'firmness-spread': quantity('force', {
    meaning: 'Standard deviation of the firmness from fruit to fruit.',
    example: '5.5 N',
    default: '6 N (planning assumption)',
  }).optional(),
  'soluble-solids': quantity('share', { meaning: 'Soluble solids, mean.', example: '12.6 %' }).optional(),
  ethylene: quantity('concentration', {
    meaning: 'Internal ethylene, mean.',
    example: '0.4 ppm',
  }).optional(),
  disorders: z
    .strictObject({
      'carbon-dioxide-injury': shareOfFruit('injury by carbon dioxide'),
      'low-oxygen-injury': shareOfFruit('injury by too little oxygen'),
      'chilling-injury': shareOfFruit('injury by cold'),
      scald: shareOfFruit('superficial scald'),
      'senescent-scald': shareOfFruit('senescent scald'),
      'soft-scald': shareOfFruit('soft scald or soggy breakdown'),
      browning: shareOfFruit('internal browning'),
      'bitter-pit': shareOfFruit('bitter pit'),
      rot: shareOfFruit('rot'),
    })
    .meta({ description: 'What was found wrong with the fruit.', examples: [{ scald: '2 %' }] })
    .optional(),
  source: sourceText.optional(),
});

/** What came of the bins of a lot that were packed. */
export const packedRun = z.strictObject({
  lot: reference('lots', { meaning: 'The lot that was packed.', example: 'L001' }),
  fill: reference('fills', {
    meaning: 'The fill it came from.',
    example: 'R01-gala',
    default: 'none: it was packed from the field',
  }).optional(),
  day: day({ meaning: 'Day it was packed.', example: '2027-02-17' }),
  bins: wholeNumber('bins', { meaning: 'Bins run.', example: 84 }, 1),
  cartons: z
    .record(z.string().regex(/^[A-Za-z][A-Za-z0-9 _-]*$/), z.number().min(0).max(MOST_COUNTED.cartons))
    .meta({
      description: 'Cartons packed of each class. The rest of the fruit was culls.',
      examples: [{ first: 910, second: 250 }],
      'x-key-kind': 'class',
    }),
});

/** Cartons that a market has taken. */
export const sale = z.strictObject({
  market: text({ meaning: 'Who bought.', example: 'home' }),
  variety: reference('varieties', { meaning: 'What they bought.', example: 'Gala' }),
  class: text({ meaning: 'The pack class, as named under packing.', example: 'first' }),
  week: week({ meaning: 'The week it left in.', example: '2027-W08' }),
  cartons: wholeNumber('cartons', { meaning: 'Cartons that left.', example: 4150 }),
  price: money({ meaning: 'What a carton brought.', example: 21.5 }).optional(),
});

export const recordSections = {
  progress: entries(
    progress,
    "What has happened to fills, by the fill's identifier: days that have been, beside those planned.",
    { 'x-key-refers-to': 'fills' },
  ).optional(),
  samples: entries(sample, 'Quality tests of stored fruit, by identifier.').optional(),
  packed: entries(packedRun, 'What was packed, by identifier: a lot on a day.').optional(),
  sales: entries(
    sale,
    'What was sold, by identifier: of a variety and class to a market in a week.',
  ).optional(),
};
