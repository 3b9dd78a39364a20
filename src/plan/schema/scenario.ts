import { z } from 'zod';
import { fill, lot, regimesSection, varietiesSection } from './fruit';
import { IDENTIFIER } from './identifier';
import { demand, packing } from './market';
import { partOf } from './partial';
import { plant } from './plant';
import { room } from './rooms';
import { binType, policy, season } from './season';
import { entries, quantity, type ReferableSection, reference, text } from './values';

/** A plan that might be, laid over the plan: what differs, and nothing else. */

const LIKE_PLAN = 'x-like-plan';

/** Changes of a section's entries, which the keys name. */
function changed(entry: z.ZodType, meaning: string, section?: ReferableSection) {
  return entries(partOf(entry), meaning, {
    [LIKE_PLAN]: true,
    ...(section && { 'x-key-refers-to': section }),
  }).optional();
}

function added(entry: z.ZodType, meaning: string, section?: ReferableSection) {
  return entries(entry, meaning, { [LIKE_PLAN]: true, ...(section && { 'x-defines': section }) }).optional();
}

function once(section: z.ZodType, meaning: string) {
  return partOf(section)
    .meta({ description: meaning, [LIKE_PLAN]: true })
    .optional();
}

const [variety, regime] = [varietiesSection.valueType, regimesSection.valueType];
const [scrubber, nitrogen, refrigeration] = [
  plant.shape.scrubbers.unwrap().valueType,
  plant.shape.nitrogen.unwrap().valueType,
  plant.shape.refrigeration.unwrap().valueType,
];

const change = z
  .strictObject({
    season: once(season, 'Keys of the season.'),
    bins: changed(binType, 'Keys of bin types.', 'bins'),
    rooms: changed(room, 'Keys of rooms.', 'rooms'),
    plant: z
      .strictObject({
        scrubbers: changed(scrubber, 'Keys of scrubbers.', 'scrubbers'),
        nitrogen: changed(nitrogen, 'Keys of nitrogen sources.', 'nitrogen'),
        refrigeration: changed(refrigeration, 'Keys of refrigeration groups.', 'refrigeration'),
      })
      .meta({ description: 'Keys of shared equipment.', [LIKE_PLAN]: true })
      .optional(),
    varieties: changed(variety, 'Values of varieties, the built-in ones too.', 'varieties'),
    regimes: changed(regime, 'Values of regimes, the built-in ones too.', 'regimes'),
    lots: changed(lot, 'Keys of lots.', 'lots'),
    fills: changed(fill, 'Keys of fills.', 'fills'),
    demand: changed(demand, 'Keys of demands.'),
    packing: once(packing, 'Keys of the packhouse.'),
    policy: once(policy, 'Keys of the policy.'),
  })
  .meta({
    description:
      'Keys of entries that the plan has, with the values that they have here, in the sections and with the keys of the plan itself. A map is changed key by key, a list as a whole.',
  });

const add = z
  .strictObject({
    bins: added(binType, 'Bin types.', 'bins'),
    rooms: added(room, 'Rooms.', 'rooms'),
    plant: z
      .strictObject({
        scrubbers: added(scrubber, 'Scrubbers.', 'scrubbers'),
        nitrogen: added(nitrogen, 'Nitrogen sources.', 'nitrogen'),
        refrigeration: added(refrigeration, 'Refrigeration groups.', 'refrigeration'),
      })
      .meta({ description: 'Shared equipment.', [LIKE_PLAN]: true })
      .optional(),
    varieties: added(variety, 'Varieties.', 'varieties'),
    regimes: added(regime, 'Regimes.', 'regimes'),
    lots: added(lot, 'Lots.', 'lots'),
    fills: added(fill, 'Fills.', 'fills'),
    demand: added(demand, 'Demands.'),
  })
  .meta({ description: 'Entries that the plan does not have, whole, as they would stand in it.' });

const names = (section: ReferableSection, meaning: string, example: string) =>
  z.array(reference(section, { meaning, example })).meta({ description: meaning }).optional();

const takeOut = z
  .strictObject({
    rooms: names('rooms', 'Rooms; their fills go with them.', 'R7'),
    scrubbers: names('scrubbers', 'Scrubbers; their rooms have none then.', 'S1'),
    nitrogen: names('nitrogen', 'Nitrogen sources; their rooms have none then.', 'N1'),
    refrigeration: names(
      'refrigeration',
      'Refrigeration groups; their rooms belong to none then.',
      'engine-room',
    ),
    lots: names('lots', 'Lots; their bins go out of all fills with them.', 'L001'),
    fills: names('fills', 'Fills.', 'R7-gala'),
    demand: z
      .array(text({ meaning: 'Demands.', example: 'gala-export' }).meta({ 'x-names': 'demand' }))
      .meta({ description: 'Demands.' })
      .optional(),
    pins: names('fills', 'Fills whose pinned week is taken out: the schedule chooses again.', 'R7-gala'),
  })
  .meta({ description: 'What the plan has and the scenario has not, by identifier.' });

const times = (meaning: string, example: string) =>
  quantity('share', { meaning, example, default: '100 %' }, { above: 0, most: 1000 });

const byVariety = (meaning: string, example: string) =>
  z
    .record(z.string().regex(new RegExp(IDENTIFIER)), times('Share of what the plan has.', example))
    .meta({ description: meaning, examples: [{ Gala: example }], 'x-key-refers-to': 'varieties' })
    .optional();

export const scenario = z.strictObject({
  says: text({
    meaning: 'What might come, in a few words.',
    example: 'a hailstorm in August',
    default: '',
  }).optional(),
  crop: times(
    'Bins of every lot, and of each fill as far as its room has places, as a share of what the plan has, in whole bins.',
    '80 %',
  ).optional(),
  'crop-of': byVariety('The same by variety, in place of `crop`.', '120 %'),
  demand: times(
    'Cartons that every order asks for, as a share of what the plan has, rounded to whole cartons.',
    '110 %',
  ).optional(),
  'demand-of': byVariety('The same by variety, in place of `demand`.', '90 %'),
  'demand-later': quantity(
    'long time',
    {
      meaning: 'All orders come so much later, in whole weeks.',
      example: '2 weeks',
      default: 'in their weeks',
    },
    { least: 0, most: 180 },
  ).optional(),
  'demand-earlier': quantity(
    'long time',
    {
      meaning: 'All orders come so much earlier, in whole weeks.',
      example: '2 weeks',
      default: 'in their weeks',
    },
    { least: 0, most: 180 },
  ).optional(),
  change: change.optional(),
  add: add.optional(),
  'take-out': takeOut.optional(),
});
