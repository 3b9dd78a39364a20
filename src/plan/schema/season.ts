import { z } from 'zod';
import { IDENTIFIER } from './identifier';
import { loading } from './rooms';
import { day, money, number, oneOf, quantity, reference, sourceText, text, wholeNumber } from './values';

export const season = z
  .strictObject({
    name: text({ meaning: 'What people call this season.', example: 'Harvest 2026' }),
    starts: day({ meaning: 'First day of harvest. The plan starts in its ISO week.', example: '2026-08-24' }),
    ends: day({
      meaning: 'Last day fruit of this season may be sold. The plan ends with its ISO week.',
      example: '2027-07-25',
    }),
    units: oneOf(['metric', 'us'], {
      meaning: 'The units results are shown in. Either system may be written in the plan at any place.',
      example: 'metric',
      default: 'metric',
    }).optional(),
    carton: quantity('mass', { meaning: 'Net fruit in one packed carton.', example: '18 kg' }),
    currency: text({
      meaning: 'What prices are in, as it should be printed.',
      example: 'EUR',
      default: 'money',
    }).optional(),
    'power-price': money({
      meaning: 'What a kilowatt-hour costs.',
      example: 0.16,
      default: 'power is not priced',
    }).optional(),
    'outside-temperature': quantity('temperature', {
      meaning: 'Outside air in the harvest weeks, for the heat that comes through walls and doors.',
      example: '18 °C',
      default: '20 °C',
    }).optional(),
    'outside-humidity': quantity('share', {
      meaning:
        'Relative humidity of the outside air in the harvest weeks, for the heat that comes through doors.',
      example: '60 %',
      default: '60 % (planning assumption)',
    }).optional(),
  })
  .meta({ description: 'The season the plan is for. Stands once in a plan.' });

export const binType = z.strictObject({
  outside: z
    .strictObject({
      length: quantity('length', { meaning: 'Outside length.', example: '1.20 m' }),
      width: quantity('length', { meaning: 'Outside width.', example: '1.00 m' }),
      height: quantity('length', { meaning: 'Height of one bin in the stack.', example: '0.78 m' }),
    })
    .meta({ description: 'Outside size of one bin.' }),
  'net-fruit': quantity('mass', { meaning: 'Fruit in one full bin.', example: '300 kg' }),
  'solid-volume': quantity('volume', {
    meaning: 'Space that the material of one empty bin takes up, in which no gas is.',
    example: '90 L',
    default: 'from its mass, wood at 500 kg/m3 and plastic at 950 kg/m3',
  }).optional(),
  tare: quantity('mass', { meaning: 'The empty bin.', example: '38 kg' }),
  material: oneOf(['wood', 'plastic'], {
    meaning: 'What the bin is made of: its heat, its volume and the water it takes up depend on it.',
    example: 'plastic',
  }),
  'specific-heat': quantity('specific heat', {
    meaning: "Heat that a kilogram of the bins' material gives up for each kelvin.",
    example: '1.9 kJ/kgK',
    default:
      'wood 2.093 kJ/kgK (0.5 kcal/kgK, Handbook 66), plastic 1.9 (general polymer tables, from memory)',
  }).optional(),
  source: sourceText.optional(),
});

const assumptions = z
  .strictObject({
    'heat-of-respiration': quantity('heat of respiration', {
      meaning: 'Heat given off for each milligram of carbon dioxide of respiration.',
      example: '10.7 J/mg',
      default: '10.7 J/mg (ASHRAE Refrigeration, from memory); the 61 kcal rule of Handbook 66 is 10.64',
    }).optional(),
    'lime-utilisation': quantity(
      'share',
      {
        meaning: 'Share of lime that gets used before it is changed, where the scrubber does not say so.',
        example: '60 %',
        default: '60 % (50 to 70 % is common)',
      },
      { above: 0, most: 100 },
    ).optional(),
    'service-pressure': quantity('pressure', {
      meaning: 'Mean pressure difference across a sealed room in service, from wind, fans and cooler cycles.',
      example: '10 Pa',
      default: '10 Pa (planning assumption)',
    }).optional(),
    'barometer-rise': quantity('pressure', {
      meaning: 'How much the barometer rises in all on a mean day of the season.',
      example: '0.5 kPa',
      default: '0.5 kPa (planning assumption)',
    }).optional(),
    'air-changes-loading': number(
      {
        meaning: "Changes of a room's air in a day on which it is filled or emptied, its door in use.",
        example: 6,
        default: '6 (Handbook 66)',
      },
      0,
      100,
    ).optional(),
    'air-changes-holding': number(
      {
        meaning: "Changes of a room's air in a day while it holds its fruit in air.",
        example: 1.8,
        default: '1.8 (Handbook 66)',
      },
      0,
      100,
    ).optional(),
    'humidity-at-fruit': quantity(
      'share',
      {
        meaning:
          "Relative humidity of the air at the fruit's surface, at its temperature. Water goes with the difference to the room's.",
        example: '98 %',
        default: '100 %: saturated',
      },
      { least: 90, most: 100 },
    ).optional(),
    'step-down-a-day': quantity(
      'temperature difference',
      {
        meaning: 'How far a room is brought down in a day after a warm hold, all its fruit together.',
        example: '1 K',
        default: '1 K (common practice)',
      },
      { least: 0.1, most: 20 },
    ).optional(),
    'days-to-cold': quantity(
      'long time',
      {
        meaning: "Days from the first bin within which all of a room's fruit should be seven-eighths cool.",
        example: '5 days',
        default: '5 days (AHDB Apple Best Practice Guide, section 7)',
      },
      { least: 0.5, most: 60 },
    ).optional(),
    source: sourceText.optional(),
  })
  .meta({
    description:
      "The engineer's assumptions for all rooms of the plan: each stands for a value the tool would take from a handbook. Limits by law and the levels that ventilation is planned for are not among them.",
    examples: [{ 'service-pressure': '15 Pa', source: 'logged in our rooms, 2024' }],
  });

const range = (meaning: string, usual: string) =>
  quantity('share', {
    meaning: `${meaning}: nine seasons of ten lie within so much of it.`,
    example: usual,
    default: usual,
  }).optional();

const uncertainty = z
  .strictObject({
    crop: range('Bins of the lots that are estimated, not received', '8 %'),
    'storage-life': range('Storage life', '10 %'),
    packout: range('Share of the fruit that packs into each class', '4 %'),
    demand: range('Cartons that each customer takes', '10 %'),
  })
  .meta({
    description: 'How far the season may differ from the plan, for drawing seasons that could come.',
    examples: [{ crop: '12 %', demand: '5 %' }],
  });

const compare = z
  .strictObject({
    weeks: wholeNumber(
      'few',
      { meaning: 'Weeks by which a window or an opening moves.', example: 2, default: '1' },
      1,
    ).optional(),
    cartons: wholeNumber(
      'cartons',
      {
        meaning: 'Cartons of a variety in a class over the season: sold, short or to processing.',
        example: 100,
        default: '25',
      },
      1,
    ).optional(),
    bins: wholeNumber(
      'bins',
      { meaning: 'Bins stored in a room, or packed in other weeks.', example: 10, default: '5' },
      1,
    ).optional(),
    load: quantity('share', {
      meaning: 'Points of what a scrubber, a nitrogen source or cooling can give in its heaviest week.',
      example: '3 %',
      default: '1 %',
    }).optional(),
    value: quantity('share', {
      meaning: 'Share of what the schedule is worth.',
      example: '0.5 %',
      default: '0.1 %',
    }).optional(),
  })
  .meta({
    description:
      'From how much on a difference is told by itself where two plans are compared; what is less is counted. Of two plans that ask otherwise, the lower holds.',
    examples: [{ weeks: 2, cartons: 100 }],
  });

export const policy = z
  .strictObject({
    confidence: quantity('share', {
      meaning:
        'How sure an opening window must be: the chance that every lot of the room is still within standard.',
      example: '90 %',
      default: '90 %',
    }).optional(),
    'rooms-open-at-once': wholeNumber(
      'few',
      { meaning: 'The most rooms that may stand open in one week.', example: 6, default: 'no limit' },
      1,
    ).optional(),
    'open-before': z
      .record(
        z.string().regex(new RegExp(IDENTIFIER)),
        z.array(reference('fills', { meaning: 'A fill that opens in a later week.', example: 'R5-gala' })),
      )
      .meta({
        description:
          'Fills that open in an earlier week than others, and those others. One left closed holds nobody up.',
        examples: [{ 'R3-gala': ['R5-gala'] }],
        'x-key-refers-to': 'fills',
      })
      .optional(),
    growers: z
      .record(z.string().regex(/./), z.enum(['apart', 'together', 'any']))
      .meta({
        description:
          "How growers' fruit is put into rooms where fills are proposed, by the grower's name as the lots have it; `all` stands for those not named. `apart`: a room with this grower's fruit holds no other's. `together`: this grower's fruit goes into as few rooms as it can. `any`, which holds where nothing is said: either way.",
        examples: [{ all: 'any', 'Hollow Farm': 'apart', 'Weir Orchard': 'together' }],
      })
      .optional(),
    'price-of-change': money({
      meaning:
        'What each week counts by which a room is moved from the schedule published last, where one is given.',
      example: 150,
      default: "0.2 % of what the room's fruit would bring",
    }).optional(),
    'price-of-uneven-work': money({
      meaning:
        'What each bin costs by which the packhouse runs more or fewer in a week than in the working week before. A week with closed days counts at the pace of a full one, a week without work not at all.',
      example: 0.5,
      default: '0',
    }).optional(),
    'price-of-week-in-air': money({
      meaning:
        'What each bin of a room kept in air (a fill without `sealed`) counts for each week that it waits from the first week in which it may open: what is in air is then packed before what is sealed. A room left shut counts nothing.',
      example: 0.4,
      default: '0',
    }).optional(),
    uncertainty: uncertainty.optional(),
    loading: loading
      .meta({
        description:
          'What gives off heat in every room on the days it is filled, where the room does not say so itself.',
      })
      .optional(),
    assumptions: assumptions.optional(),
    arrivals: oneOf(['as-picked', 'evenly'], {
      meaning:
        "When a fill's bins come into its room. `as-picked`: each lot evenly over its days of picking, as warm as it was picked, within the fill's first and last bin. `evenly`: bins are held back, and as many come in on each day of the fill, of all its lots.",
      example: 'evenly',
      default: 'as-picked',
    }).optional(),
    'intake-a-day': quantity('share', {
      meaning: 'The largest share of a room that should be filled in one day.',
      example: '10 %',
      default: '10 %',
    }).optional(),
    'most-scrubber-load': quantity(
      'share',
      {
        meaning: 'Scrubber load in a week, of what it can remove, above which a finding is given.',
        example: '85 %',
        default: '100 %',
      },
      { above: 0 },
    ).optional(),
    compare: compare.optional(),
    findings: z
      .record(z.string().regex(/^[a-z][a-z0-9-]*$/), z.enum(['error', 'warning', 'notice', 'off']))
      .meta({
        description:
          "The severity of a rule for this plan, by the rule's code: error, warning, notice or off.",
        examples: [{ 'room-partly-filled': 'off' }],
        'x-key-kind': 'code',
      })
      .optional(),
  })
  .meta({ description: 'What the planner wants of the plan. Stands once in a plan.' });
