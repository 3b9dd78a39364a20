import { z } from 'zod';
import { day, number, quantity, sourceText } from './values';

/** What records have taught of a lot, a filling and a room: values that stand in place of those of the sources. */

export const learnedOfLot = {
  firmness: z
    .strictObject({
      'at-harvest': quantity('force', {
        meaning: 'Firmness its course starts from, in place of the one tested at harvest.',
        example: '81.4 N',
      }),
      softening: number(
        {
          meaning: 'The firmness it loses, as a share of what the plan would count without this.',
          example: 0.86,
        },
        0,
        5,
      ),
      'known-best': day({
        meaning: 'The day on which its firmness is known best; doubt grows before and after it.',
        example: '2026-12-14',
      }),
      spread: quantity('force', {
        meaning: 'Standard deviation of its firmness on that day.',
        example: '1.2 N',
      }),
      'softening-spread': quantity('share', {
        meaning: 'Standard deviation of what it loses from then on, as a share of that.',
        example: '9 %',
      }),
      source: sourceText.optional(),
    })
    .meta({
      description:
        "The lot's own course of firmness, in place of the variety's, as fitted to its samples. `lotwright learn` writes it.",
    })
    .optional(),
  packout: z
    .strictObject({
      shares: z
        .record(
          z.string().regex(/^[A-Za-z][A-Za-z0-9 _-]*$/),
          quantity('share', { meaning: 'Share of its fruit that packs into the class.', example: '58 %' }),
        )
        .meta({
          description: "Share of the lot's fruit that packs into each class, before what is lost in store.",
          examples: [{ first: '58 %', second: '21 %' }],
          'x-key-kind': 'class',
        }),
      source: sourceText.optional(),
    })
    .meta({
      description:
        "The lot's own packout, in place of its variety's, as corrected by what was packed. `lotwright learn` writes it.",
    })
    .optional(),
  crop: z
    .strictObject({
      share: number(
        { meaning: 'Bins to be expected, as a share of those estimated in `bins`.', example: 0.93 },
        0,
        5,
      ),
      source: sourceText.optional(),
    })
    .meta({
      description:
        'What the estimate has turned out to be worth, by the receipts of other lots. It counts until the lot is received. `lotwright learn` writes it.',
    })
    .optional(),
};

export const learnedOfFill = {
  respiration: z
    .strictObject({
      share: number(
        {
          meaning: 'Respiration of its fruit in the atmosphere, as a share of what the varieties give.',
          example: 0.87,
        },
        0,
        5,
      ),
      source: sourceText.optional(),
    })
    .meta({
      description:
        'How fast the fruit of this filling truly breathes in its gas, as fitted to readings. In a room kept in air it says nothing. `lotwright learn` writes it.',
    })
    .optional(),
};

export const learnedOfRoom = {
  leakage: z
    .strictObject({
      'in-service': quantity(
        'flow',
        {
          meaning: 'Air that comes into the sealed room in an hour by leaks and weather together.',
          example: '0.21 m3/h',
        },
        { least: 0 },
      ),
      source: sourceText.optional(),
    })
    .meta({
      description:
        'What the room leaks in service, in place of what follows from its pressure test and the assumed pressures, as fitted to readings. `lotwright learn` writes it.',
    })
    .optional(),
};
