import { z } from 'zod';
import { learnedOfRoom } from './learned';
import { day, number, oneOf, quantity, reference, wholeNumber } from './values';

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
    'bins',
    {
      meaning: 'Bin places as counted in the room. Left out, they follow from size, stacking and clearances.',
      example: 825,
      default: 'from the geometry',
    },
    1,
  ).optional(),
  stack: wholeNumber(
    'few',
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
  'lost-places': wholeNumber('bins', {
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
  ...learnedOfRoom,
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
