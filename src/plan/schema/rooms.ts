import { z } from 'zod';
import {
  day,
  daySpan,
  entries,
  number,
  oneOf,
  quantity,
  reference,
  sourceText,
  text,
  wholeNumber,
} from './values';

/** Under `policy` for every room, and under a room for itself, key by key. */
export const loading = z
  .strictObject({
    lights: quantity(
      'power',
      {
        meaning: 'Power of the lights that burn in a room while it is filled; all of it becomes heat.',
        example: '2.4 kW',
        default: 'no heat of lights is counted',
      },
      { least: 0 },
    ).optional(),
    vehicles: number(
      {
        meaning: 'Forklifts and other vehicles at work in a room at a time while it is filled.',
        example: 1,
        default: 'no heat of vehicles is counted',
      },
      0,
    ).optional(),
    'vehicle-heat': quantity(
      'power',
      {
        meaning: 'Heat that each vehicle gives off while it works.',
        example: '1.3 kW',
        default: '1.28 kW, an electric forklift',
      },
      { least: 0 },
    ).optional(),
    people: number(
      {
        meaning: 'People at work in a room at a time while it is filled.',
        example: 2,
        default: 'no heat of people is counted',
      },
      0,
    ).optional(),
    'hours-a-day': number(
      {
        meaning:
          'Hours of a day in which a room is filled: as long do lights, vehicles and people give off heat.',
        example: 10,
        default: '8',
      },
      0,
      24,
    ).optional(),
  })
  .meta({
    description:
      'What gives off heat in a room on the days from its first bin to its last. When the room only holds its fruit, none of it is counted.',
  });

export const room = z.strictObject({
  inside: z
    .strictObject({
      length: quantity('length', { meaning: 'Inside length.', example: '18.6 m' }),
      width: quantity('length', { meaning: 'Inside width.', example: '9.0 m' }),
      height: quantity('length', { meaning: 'Inside height, floor to ceiling.', example: '7.6 m' }),
    })
    .meta({ description: 'Inside size of the room.' }),
  'equipment-volume': quantity('volume', {
    meaning: 'Space that cooler, ducts, pillars and the like take up, in which no gas is.',
    example: '6 m3',
    default: 'none is taken off',
  }).optional(),
  'bin-type': reference('bins', {
    meaning: 'The bin type the room is stacked with.',
    example: 'plastic-1200',
  }),
  places: wholeNumber(
    {
      meaning: 'Bin places as counted in the room. Left out, they follow from size, stacking and clearances.',
      example: 825,
      default: 'from the geometry',
    },
    1,
  ).optional(),
  stack: wholeNumber(
    { meaning: 'Bins high.', example: 9, default: 'as many as fit under the ceiling clearance' },
    1,
  ).optional(),
  clearance: z
    .strictObject({
      walls: quantity(
        'length',
        {
          meaning: 'Free space along each wall.',
          example: '20 cm',
          default: '20 cm',
        },
        { least: 0 },
      ).optional(),
      ceiling: quantity(
        'length',
        {
          meaning: 'Free space above the stack.',
          example: '80 cm',
          default: '80 cm',
        },
        { least: 0 },
      ).optional(),
      gap: quantity(
        'length',
        {
          meaning: 'Free space between bins in a row and between rows.',
          example: '5 cm',
          default: '5 cm',
        },
        { least: 0 },
      ).optional(),
    })
    .meta({ description: 'Space left free for the air to pass.' })
    .optional(),
  'lost-places': wholeNumber({
    meaning: 'Places of the normal stack that are lost under the cooler, at the door or at pillars.',
    example: 15,
    default: '0',
  }).optional(),
  refrigeration: z
    .strictObject({
      capacity: quantity('power', { meaning: "Cooling the room's own cooler can give.", example: '85 kW' }),
      group: reference('refrigeration', {
        meaning: 'The refrigeration group that serves it.',
        example: 'north-plant',
      }).optional(),
      'half-time': quantity('short time', {
        meaning: 'Time in which the fruit comes half the way to the room, as measured in its bins.',
        example: '20 h',
        default: '12.1 h',
      }).optional(),
      lag: number(
        {
          meaning:
            "Lag factor of the fruit's cooling: 1 where it follows the room at once; above it the fruit starts to cool later, and seven eighths take ln(8 lag) / ln 2 half-times.",
          example: 1.1,
          default: '1',
        },
        1,
        10,
      ).optional(),
      fans: quantity('power', {
        meaning: "Power that the cooler's fans take at full circulation; all of it becomes heat.",
        example: '6 kW',
        default: "from `fan-motors`, else from the room's volume: 40 volumes an hour against 200 Pa at 50 %",
      }).optional(),
      'fans-holding': quantity('share', {
        meaning:
          'Share of full circulation, or of the time, in which the fans run once the fruit is cold: their power and their heat are so much less.',
        example: '50 %',
        default: '100 %',
      }).optional(),
      'fan-motors': quantity('power', {
        meaning:
          "Rated power of the motors of the cooler's fans together, where what they take is not known; they take some 16 % more.",
        example: '7.5 hp',
        default: 'not known',
      }).optional(),
      'coil-difference': quantity(
        'temperature difference',
        {
          meaning:
            "How much colder the coil's surface is than the room's air while holding; the larger it is, the drier the room.",
          example: '4 K',
          default: '5 K where the humidity a room comes to is told, else nothing is said of it',
        },
        { above: 0, most: 20 },
      ).optional(),
    })
    .meta({ description: "The room's cooler." })
    .optional(),
  loading: loading.optional(),
  'heat-transfer': quantity('heat transfer', {
    meaning: 'U-value of walls, ceiling and floor.',
    example: '0.18 W/m2K',
    default: '0.20 W/m2K',
  }).optional(),
  tightness: z
    .strictObject({
      from: quantity('pressure', { meaning: 'Pressure at the start of the test.', example: '250 Pa' }),
      to: quantity('pressure', { meaning: 'Pressure at its end.', example: '125 Pa' }, { least: 0 }),
      after: quantity('short time', { meaning: 'Time between the two.', example: '22 min' }),
      tested: day({ meaning: 'Day of the test.', example: '2026-08-03' }).optional(),
    })
    .meta({ description: 'The last pressure test of the sealed, empty room.' })
    .optional(),
  'breather-bag': quantity('volume', {
    meaning: 'Gas the breather bag takes up and gives back as the barometer moves, in place of outside air.',
    example: '4 m3',
    default: 'no bag',
  }).optional(),
  scrubber: reference('scrubbers', {
    meaning: 'The scrubber that serves the room.',
    example: 'S1',
  }).optional(),
  nitrogen: reference('nitrogen', {
    meaning: 'The nitrogen source that serves the room.',
    example: 'N1',
  }).optional(),
  law: oneOf(['washington', 'new-york', 'none'], {
    meaning: 'The state rule that a "CA" claim of this room\'s fruit follows.',
    example: 'washington',
    default: 'none',
  }).optional(),
  ready: day({
    meaning: 'The day the room is cleaned, tested and cold, and may take its first bin.',
    example: '2026-08-20',
  }).optional(),
});

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
      number: wholeNumber({ meaning: 'Beds that take turns.', example: 2 }, 1),
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
