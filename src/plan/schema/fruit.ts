import { z } from 'zod';
import { learnedOfFill, learnedOfLot } from './learned';
import {
  count,
  day,
  daySpan,
  entries,
  number,
  oneOf,
  quantity,
  reference,
  sourceText,
  text,
  week,
  wholeNumber,
} from './values';

const respirationRates = z
  .array(
    z.strictObject({
      at: quantity('temperature', { meaning: 'Fruit temperature.', example: '0 °C' }),
      rate: quantity('respiration', { meaning: 'Carbon dioxide given off in air.', example: '3 mg/kg/h' }),
    }),
  )
  .min(2)
  .meta({
    description:
      'Respiration in air by temperature, coldest first. Between two of them it grows by the same factor for each degree (a constant Q10), as it does beyond them.',
  });

const disorder = (meaning: string) =>
  z
    .strictObject({
      watch: oneOf(['on', 'off'], {
        meaning: 'Off: nothing is said of it.',
        example: 'off',
        default: 'on',
      }).optional(),
      from: quantity('long time', {
        meaning: 'How long after picking, or sealing for injury by the atmosphere, it begins to show.',
        example: '4 months',
      }).optional(),
      until: quantity('long time', {
        meaning: 'After this it comes no more.',
        example: '4 months',
      }).optional(),
      'packed-by': quantity('long time', {
        meaning:
          'How long after picking, or sealing for injury by the atmosphere, the fruit must be packed because of it. It sets the latest week of its rooms.',
        example: '6 months',
      }).optional(),
    })
    .meta({ description: meaning })
    .optional();

const disorders = z
  .strictObject({
    'carbon-dioxide-injury': disorder('Injury by carbon dioxide, in the first months.'),
    'low-oxygen-injury': disorder('Injury by too little oxygen.'),
    'chilling-injury': disorder('Injury by cold.'),
    scald: disorder('Superficial scald of fruit without antioxidant or 1-MCP.'),
    'senescent-scald': disorder('Scald of fruit near the end of its life.'),
    'soft-scald': disorder('Soft scald and soggy breakdown.'),
    browning: disorder('Internal browning.'),
    'bitter-pit': disorder('Bitter pit.'),
  })
  .meta({ description: "Own values for the variety's disorders in store, or one switched off." });

export const variety = z.strictObject({
  like: text({
    meaning: 'The built-in variety whose reference values hold where none is given here.',
    example: 'Gala',
    default: 'the built-in variety of the same name',
  }).optional(),
  respiration: respirationRates.optional(),
  'respiration-in-store': number(
    {
      meaning: 'Respiration in the controlled atmosphere as a share of that in air.',
      example: 0.35,
      default: 'as in the built-in variety',
    },
    0.05,
    1,
  ).optional(),
  'respiratory-quotient': number(
    {
      meaning: 'Carbon dioxide given off for each volume of oxygen used.',
      example: 1.05,
      default: '1.05',
    },
    0.5,
    2,
  ).optional(),
  transpiration: quantity('transpiration', {
    meaning:
      'Water given off by a kilogram of fruit in a second for each pascal of vapour pressure deficit. Tables have 35 to 58 for varieties of apple.',
    example: '58 ng/kg/s/Pa',
    default: '42 ng/kg/s/Pa',
  }).optional(),
  'specific-heat': quantity('specific heat', {
    meaning: 'Heat that a kilogram of the fruit gives up for each kelvin, above freezing.',
    example: '3.81 kJ/kgK',
    default:
      'apples 3.81 kJ/kgK (World Food Logistics Organization 2008), pears 3.60 (0.86 kcal/kgK, Handbook 66)',
  }).optional(),
  density: quantity('density', {
    meaning:
      'Mass of a cubic metre of the fruit itself, without the gas between: with it the free gas follows.',
    example: '840 kg/m3',
    default: '840 kg/m3 (general food engineering tables, from memory)',
  }).optional(),
  'storage-life-in-air': quantity('long time', {
    meaning: 'Storage life in cold air.',
    example: '4 months',
  }).optional(),
  'storage-life': quantity('long time', {
    meaning: 'Storage life in its regime.',
    example: '9 months',
  }).optional(),
  'keeps-shorter': quantity(
    'long time',
    {
      meaning:
        "By how much this season's fruit keeps shorter than that, in every regime: taken off its storage life before anything else is.",
      example: '3 weeks',
      default: '0 days',
    },
    { least: 0, most: 366 },
  ).optional(),
  'least-temperature': quantity('temperature', {
    meaning: 'Below it the fruit is injured by cold.',
    example: '2.5 °C',
  }).optional(),
  'least-oxygen': quantity('share', { meaning: 'Below it the fruit ferments.', example: '1.0 %' }).optional(),
  'oxygen-breakpoint': quantity(
    'share',
    {
      meaning:
        'Oxygen at which the respiratory quotient is a tenth above its value in plenty of oxygen: fermentation sets in.',
      example: '0.7 %',
      default: 'as measured for the built-in variety, else 0.8 %, or your least-oxygen where that is lower',
    },
    { above: 0, most: 5 },
  ).optional(),
  'most-carbon-dioxide': quantity('share', {
    meaning: 'Above it the fruit is injured.',
    example: '1.0 %',
  }).optional(),
  'least-exit-firmness': quantity('force', {
    meaning: 'Firmness the fruit must still have at sale.',
    example: '49 N',
  }).optional(),
  softening: quantity('force', {
    meaning: 'Firmness lost in a month in its regime.',
    example: '1.8 N',
  }).optional(),
  disorders: disorders.optional(),
  source: sourceText.optional(),
});

export const regime = z.strictObject({
  like: text({
    meaning: 'The built-in regime whose values hold where none is given here.',
    example: 'gala-standard',
  }).optional(),
  varieties: z
    .array(reference('varieties', { meaning: 'A variety the regime suits.', example: 'Gala' }))
    .min(1)
    .meta({ description: 'The varieties that may be kept in it.' })
    .optional(),
  temperature: quantity('temperature', { meaning: 'Holding temperature.', example: '0.6 °C' }).optional(),
  oxygen: quantity('share', {
    meaning: 'Oxygen held. Left out, the room is kept in air.',
    example: '1.5 %',
  }).optional(),
  'carbon-dioxide': quantity('share', {
    meaning: 'Carbon dioxide held at most.',
    example: '1.5 %',
  }).optional(),
  humidity: quantity('share', { meaning: 'Relative humidity.', example: '93 %', default: '93 %' }).optional(),
  'storage-life': quantity('long time', {
    meaning: 'How long fruit picked at the right maturity keeps in it.',
    example: '8 months',
  }).optional(),
  conditioning: z
    .strictObject({
      temperature: quantity('temperature', { meaning: 'Temperature of the warm hold.', example: '10 °C' }),
      lasts: quantity('long time', { meaning: 'How long it lasts.', example: '7 days' }),
    })
    .meta({ description: 'A warm hold before cooling.' })
    .optional(),
  stages: z
    .array(
      z.strictObject({
        from: quantity(
          'long time',
          { meaning: 'How long after sealing it begins.', example: '30 days' },
          { least: 0 },
        ),
        oxygen: quantity('share', {
          meaning: 'Oxygen held.',
          example: '1.5 %',
          default: "the regime's",
        }).optional(),
        'carbon-dioxide': quantity('share', {
          meaning: 'Carbon dioxide held at most.',
          example: '0.5 %',
          default: "the regime's",
        }).optional(),
        temperature: quantity('temperature', {
          meaning: 'Temperature held.',
          example: '3 °C',
          default: "the regime's",
        }).optional(),
      }),
    )
    .min(1)
    .meta({
      description: "Stages of storage whose set-points differ from the regime's own; each lasts to the next.",
    })
    .optional(),
  source: sourceText.optional(),
});

export const lot = z.strictObject({
  variety: reference('varieties', { meaning: 'What was picked.', example: 'Gala' }),
  block: text({ meaning: 'The orchard block.', example: 'Long Meadow 2' }).optional(),
  grower: text({ meaning: 'Who grew it.', example: 'Hollow Farm' }).optional(),
  picked: daySpan({
    meaning: 'The day, or first and last day, of picking.',
    example: '2026-09-03..2026-09-05',
  }),
  bins: wholeNumber('bins', { meaning: 'Bins expected.', example: 240 }),
  received: wholeNumber('bins', {
    meaning: 'Bins received; once given it counts instead of the estimate.',
    example: 236,
  }).optional(),
  'received-by-day': z
    .record(z.string().regex(/^\d{4}-\d{2}-\d{2}$/), count('bins'))
    .meta({
      description:
        'Bins received, by the day they came in. Once they reach to the last day of picking, or to more than was expected, their sum counts instead of the estimate. `lotwright take-in` writes them.',
      examples: [{ '2026-09-03': 120, '2026-09-04': 116 }],
      'x-key-kind': 'day',
    })
    .optional(),
  'field-temperature': quantity('temperature', {
    meaning: 'Fruit temperature on arrival.',
    example: '19 °C',
    default: '20 °C',
  }).optional(),
  maturity: z
    .strictObject({
      tested: day({ meaning: 'Day of the test.', example: '2026-09-02' }).optional(),
      starch: number(
        { meaning: 'Starch index, on the scale named beside it.', example: 3.4 },
        0,
        10,
      ).optional(),
      'starch-scale': oneOf(['one-to-eight', 'one-to-ten', 'one-to-six'], {
        meaning: 'The scale of the starch index; the lowest number is the most starch.',
        example: 'one-to-eight',
        default: 'one-to-eight',
      }).optional(),
      firmness: quantity('force', {
        meaning: 'Flesh firmness by the 11 mm probe, mean.',
        example: '17.4 lbf',
      }).optional(),
      'soluble-solids': quantity('share', { meaning: 'Soluble solids, mean.', example: '12.1 %' }).optional(),
      ethylene: quantity('concentration', {
        meaning: 'Internal ethylene, mean.',
        example: '0.2 ppm',
      }).optional(),
    })
    .meta({ description: 'Maturity tests at harvest.' })
    .optional(),
  ...learnedOfLot,
  treatments: z
    .array(
      oneOf(['1-mcp', 'antioxidant', 'fungicide', 'calcium'], {
        meaning: 'A treatment the lot has had or will have before storage.',
        example: '1-mcp',
      }),
    )
    .meta({ description: 'Treatments.' })
    .optional(),
  'packed-at-harvest': quantity(
    'long time',
    {
      meaning:
        'Its bins that are in no fill are packed from the field, or from a cold-air holding room, within this time of ' +
        'their last day of picking in a week. What is not packed by then goes to processing.',
      example: '14 days',
      default: 'its bins that are in no fill are not packed',
    },
    { above: 0, most: 62 },
  ).optional(),
});

export const fill = z.strictObject({
  room: reference('rooms', { meaning: 'The room that is filled.', example: 'R01' }),
  regime: reference('regimes', { meaning: 'The regime the room is kept in.', example: 'gala-standard' }),
  'first-bin': day({ meaning: 'Day of the first bin.', example: '2026-09-03' }),
  'last-bin': day({ meaning: 'Day of the last bin.', example: '2026-09-08' }),
  sealed: day({
    meaning: 'Day the door is sealed. Left out, the room is kept in air.',
    example: '2026-09-10',
  }).optional(),
  lots: z.record(z.string().regex(/^[A-Za-z][A-Za-z0-9 ._/'-]*$/), count('bins', 1)).meta({
    description: 'The lots in it, and how many bins of each.',
    examples: [{ L001: 236, L002: 180 }],
    'x-key-refers-to': 'lots',
  }),
  ...learnedOfFill,
  'for-markets': z
    .array(text({ meaning: 'A market, as named by the demands.', example: 'home' }))
    .min(1)
    .meta({
      description:
        'Markets its fruit is kept for: its cartons fill the demands of these alone. Left out, of every market.',
      examples: [['home']],
    })
    .optional(),
  open: week({
    meaning: 'The week it must be opened; the schedule keeps it.',
    example: '2027-W09',
  }).optional(),
});

export const varietiesSection = entries(
  variety,
  "Varieties: the planner's own, or own values for a built-in one.",
  {
    'x-section': 'varieties',
  },
);
export const regimesSection = entries(
  regime,
  "Regimes: the planner's own, or own values for a built-in one.",
  {
    'x-section': 'regimes',
  },
);
