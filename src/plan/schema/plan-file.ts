import { z } from 'zod';
import { expectation } from './expect';
import { fill, lot, regimesSection, varietiesSection } from './fruit';
import { LANGUAGE_VERSION } from './language-version';
import { demand, packing } from './market';
import { plant } from './plant';
import { recordSections } from './records';
import { room } from './rooms';
import { scenario } from './scenario';
import { binType, policy, season } from './season';
import { readingsLayout, tableLayout } from './tables';
import { entries } from './values';

/** One plan file. All files of a plan have the same sections; a folder's files are one plan. */
export const planFile = z
  .strictObject({
    lotwright: z
      .literal(LANGUAGE_VERSION)
      .meta({
        description: 'The version of the plan language the file is written in.',
        examples: [LANGUAGE_VERSION],
      })
      .optional(),
    season: season.optional(),
    bins: entries(binType, 'Bin types, by identifier.', { 'x-section': 'bins' }).optional(),
    rooms: entries(room, 'Rooms, by identifier.', { 'x-section': 'rooms' }).optional(),
    plant: plant.optional(),
    varieties: varietiesSection.optional(),
    regimes: regimesSection.optional(),
    lots: entries(lot, 'Harvest lots, by identifier.', { 'x-section': 'lots' }).optional(),
    fills: entries(fill, 'Which lots go to which room, by identifier.', { 'x-section': 'fills' }).optional(),
    demand: entries(demand, 'What markets want, by identifier.').optional(),
    expect: entries(
      expectation,
      'What the plan promises, by identifier: checked against what is computed, as tests are.',
    ).optional(),
    scenarios: entries(scenario, 'Plans that might be, by identifier: what differs in each.').optional(),
    tables: entries(
      tableLayout,
      'How files of comma-separated values are laid out that are taken in, by identifier.',
    ).optional(),
    readings: entries(
      readingsLayout,
      'Files of readings of rooms that stay beside the plan, by identifier.',
    ).optional(),
    ...recordSections,
    packing: packing.optional(),
    policy: policy.optional(),
  })
  .meta({ title: 'Lotwright plan file', description: 'One file of a harvest-to-market storage lot plan.' });

export type PlanFileText = z.input<typeof planFile>;
export type SectionName = Exclude<keyof PlanFileText, 'lotwright'>;
