import { z } from 'zod';
import { week } from './parts';

const chance = z.number().meta({ description: 'As a share: 0.1 is one season of ten.' });

const short = {
  chance,
  cartonsShort: z.number().meta({ description: 'Mean of all draws.' }),
  weeks: z
    .array(z.strictObject({ week, chance, cartonsShort: z.number() }))
    .meta({ description: 'Weeks that are short in any draw by more than 1 % of what is wanted.' }),
};

export const uncertainty = z
  .strictObject({
    draws: z.int(),
    seed: z.int(),
    ranges: z
      .strictObject({
        crop: z.number(),
        storageLife: z.number(),
        packout: z.number(),
        demand: z.number(),
      })
      .meta({ description: 'Shares of the plan within which nine seasons of ten lie.' }),
    planned: z.number().meta({
      description:
        'Worth of the schedule where all comes as planned, packing spread anew too, soft fruit counted as it comes, changed weeks left out.',
    }),
    mean: z.number(),
    meanError: z
      .number()
      .meta({ description: 'Standard error of the mean: what other draws would move it by.' }),
    low: z.number().meta({ description: 'One season of ten is worth less.' }),
    high: z.number().meta({ description: 'One season of ten is worth more.' }),
    worstTenth: z.number().meta({ description: 'Mean of the tenth of the seasons that are worth least.' }),
    varieties: z.array(z.strictObject({ variety: z.string(), ...short })),
    all: z
      .strictObject(short)
      .meta({ description: 'Of all varieties: a week counts where one of them is short.' }),
    rooms: z
      .array(
        z.strictObject({
          room: z.string(),
          fill: z.string(),
          costs: z.number().meta({
            description:
              'Money less if this room alone has the low end of crop and storage life, packed in the planned proportions.',
          }),
          cartonsShort: z.number(),
          softChance: chance,
          softShare: z
            .number()
            .meta({ description: 'Mean share of its cartons below standard when packed.' }),
        }),
      )
      .meta({ description: 'Those the season hangs on most come first.' }),
  })
  .meta({
    description:
      'The schedule in seasons drawn from the ranges of `policy: uncertainty`. Opening weeks are held, what is packed of a room in each week is spread anew, knowing how the season goes; fruit that keeps longer stays firm for buyers as much longer. Every second season is the mirror of the one before.',
  });

export const goodAcross = z
  .strictObject({
    draws: z.int().meta({ description: 'Seasons it was sought on.' }),
    rounds: z.int().meta({ description: 'Rounds of the search that gained.' }),
    tried: z.int().meta({ description: 'Schedules and moves that were tried.' }),
    meanBefore: z.number().meta({
      description:
        'Mean worth, on the seasons it was sought on, of the schedule that is best if all comes as expected; changed weeks taken off.',
    }),
    mean: z.number().meta({ description: 'The same of the schedule found; never less.' }),
    valueBefore: z.number().meta({ description: 'Value of the schedule it was sought from, as planned.' }),
    expected: uncertainty.meta({
      description:
        'The schedule it was sought from on the seasons of `uncertainty`, which neither was sought on.',
    }),
    moved: z
      .array(
        z.strictObject({
          room: z.string(),
          fill: z.string(),
          from: week.optional(),
          to: week.optional(),
        }),
      )
      .meta({ description: 'Without `from` or `to` the room stays closed there.' }),
  })
  .meta({ description: 'With `--good-across`: a schedule that is good across seasons drawn.' });
