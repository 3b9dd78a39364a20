import { z } from 'zod';
import { daySpan, entries, number, oneOf, quantity, sourceText, text, wholeNumber } from './values';

const scrubberKeys = z.strictObject({
  kind: oneOf(['carbon', 'lime', 'membrane'], {
    meaning: 'How it removes carbon dioxide.',
    example: 'carbon',
  }),
  removal: quantity('removal', {
    meaning: 'Carbon dioxide it removes in a day at the stated level.',
    example: '260 kg/day',
  }),
  'at-level': quantity(
    'share',
    { meaning: 'Room carbon dioxide at which that removal was stated.', example: '3 %' },
    { above: 0, most: 100 },
  ),
  beds: z
    .strictObject({
      number: wholeNumber('few', { meaning: 'Beds that take turns.', example: 2 }, 1),
      carbon: quantity('mass', { meaning: 'Carbon in one bed.', example: '140 kg' }),
      adsorb: quantity('short time', {
        meaning: 'Time a bed adsorbs before it is saturated.',
        example: '8 min',
      }),
      regenerate: quantity('short time', {
        meaning: 'Time outside air needs to regenerate it.',
        example: '8 min',
      }),
      'void-volume': quantity('volume', {
        meaning: 'Gas in one bed and its ducts, carried over at each change.',
        example: '0.5 m3',
      }).optional(),
      rinsed: quantity('share', {
        meaning:
          'Share of the outside air in a bed that low-oxygen gas has taken the place of before the bed turns to a room.',
        example: '80 %',
        default: '0 %',
      }).optional(),
      loading: z
        .array(
          z.strictObject({
            at: quantity(
              'share',
              { meaning: 'Carbon dioxide in the gas.', example: '3 %' },
              { above: 0, most: 100 },
            ),
            grams: number(
              { meaning: 'Grams of it that a kilogram of the carbon holds then.', example: 11.5 },
              0.1,
              500,
            ),
          }),
        )
        .min(1)
        .meta({
          description:
            'What the carbon holds at a level, by its maker: one or more points. Between two of them logarithms run straight; below the first it goes with the level, and one point alone stands for every level so.',
          'x-default':
            '4 g/kg at 1 %, 11.5 at 3 %, 17 at 5 %, 42.5 at 15 % and 97.5 at 100 % (middle of common carbons, from memory)',
        })
        .optional(),
      used: quantity(
        'share',
        {
          meaning: 'Share of that loading which is used before a bed breaks through.',
          example: '60 %',
          default: '60 % (50 to 70 % is common)',
        },
        { above: 0, most: 100 },
      ).optional(),
      source: sourceText.optional(),
    })
    .meta({ description: 'The beds of a carbon scrubber.' })
    .optional(),
  selectivity: z
    .strictObject({
      'over-oxygen': number(
        {
          meaning:
            'How many times as easily carbon dioxide passes the membrane as oxygen, at the same difference of partial pressure.',
          example: 6,
        },
        1,
        1000,
      ),
      'over-nitrogen': number(
        {
          meaning:
            'How many times as easily carbon dioxide passes the membrane as nitrogen, at the same difference of partial pressure.',
          example: 25,
        },
        1,
        1000,
      ),
    })
    .meta({
      description:
        'What a membrane lets through beside carbon dioxide, by its maker. With it, removal goes with the difference to outside air, and oxygen comes in; left out, the rating in proportion to the level is used.',
    })
    .optional(),
  charge: quantity('mass', {
    meaning: 'Lime in a fresh charge.',
    example: '1.5 t',
    default: 'not known, so that no day of change can be told',
  }).optional(),
  utilisation: quantity(
    'share',
    {
      meaning: 'Share of its lime that gets used before it is changed.',
      example: '60 %',
      default: "the plan's lime-utilisation, else 60 %",
    },
    { above: 0, most: 100 },
  ).optional(),
  'hours-a-day': number({ meaning: 'Hours a day it may run.', example: 24, default: '24' }, 0, 24).optional(),
  power: quantity('power', {
    meaning: 'Power its fans and valves take while it runs.',
    example: '5.5 kW',
    default: 'not counted',
  }).optional(),
});

const outOfUse = (example: string) =>
  z
    .array(daySpan({ meaning: 'A day, or first and last day, on which it does not run.', example }))
    .meta({
      description: 'Days on which it does not run: serviced, or broken.',
      examples: [[example]],
    })
    .optional();

const scrubber = scrubberKeys.extend({ 'out-of-use': outOfUse('2026-10-05..2026-10-07') });

const nitrogenSource = z.strictObject({
  'out-of-use': outOfUse('2026-09-21..2026-09-22'),
  kind: oneOf(['membrane', 'adsorption', 'liquid'], {
    meaning: 'Where the nitrogen comes from.',
    example: 'membrane',
  }),
  flows: z
    .array(
      z.strictObject({
        purity: quantity('share', { meaning: 'Nitrogen in the gas delivered.', example: '98 %' }),
        flow: quantity('flow', { meaning: 'Gas delivered at that purity.', example: '110 m3/h' }),
      }),
    )
    .min(1)
    .meta({ description: 'What it delivers: one or more points of purity and flow.' }),
  'stops-at': quantity('share', {
    meaning:
      'Oxygen at which the feed is stopped where a regime asks for less; the fruit takes the rest. Many stop at about 1.8 %.',
    example: '1.8 %',
    default: "the regime's oxygen",
  }).optional(),
  power: quantity('power', {
    meaning: 'Power it takes while it runs.',
    example: '38 kW',
    default: 'not counted',
  }).optional(),
});

const refrigerationGroup = z.strictObject({
  capacity: quantity('power', {
    meaning: 'Cooling the group can give all its rooms together.',
    example: '900 kW',
  }),
  refrigerant: text({ meaning: 'What it runs on; named in cautions.', example: 'ammonia' }).optional(),
  performance: number(
    {
      meaning:
        'Cooling for each kilowatt of power that compressors, pumps and condenser fans take. Fans in the rooms are counted apart.',
      example: 3.2,
      default: '3',
    },
    0.5,
    12,
  ).optional(),
});

export const plant = z
  .strictObject({
    scrubbers: entries(scrubber, 'Scrubbers, by identifier.', { 'x-section': 'scrubbers' }).optional(),
    nitrogen: entries(nitrogenSource, 'Nitrogen sources, by identifier.', {
      'x-section': 'nitrogen',
    }).optional(),
    refrigeration: entries(refrigerationGroup, 'Refrigeration groups, by identifier.', {
      'x-section': 'refrigeration',
    }).optional(),
  })
  .meta({ description: 'Equipment that several rooms share.' });
