import { z } from 'zod';
import { courseCasesShape } from './course';
import { findingCounts, header, measure, place, week } from './parts';

const gasRow = z.strictObject({
  room: z.string(),
  fill: z.string(),
  varieties: z.array(z.string()),
  regime: z.string().optional(),
  place,
  oxygen: measure.optional(),
  carbonDioxide: measure.optional(),
  temperature: measure.optional(),
  carbonDioxideAtFilling: measure.optional(),
  carbonDioxideInStore: measure.optional(),
  carbonDioxideInStoreLow: measure.optional(),
  carbonDioxideInStoreHigh: measure.optional(),
  scrubber: z.string().optional(),
  limePerMonth: measure.optional(),
  nitrogen: z.string().optional(),
  nitrogenVolume: measure.optional(),
  nitrogenHours: measure.optional(),
  nitrogenShortfall: z.string().optional(),
  leakShareOfFruitUse: measure.optional(),
  course: courseCasesShape.optional().meta({
    description: 'What the room comes to from sealing to opening, integrated; rooms kept in air only cool.',
  }),
  freshAirVolumes: measure.optional().meta({
    description: 'Planning figure for ventilation before a crew is called; never says that entry is safe.',
  }),
});

const loadWeek = z.strictObject({ week, load: measure.optional(), share: measure.optional() });

export const gasReport = z
  .strictObject({
    ...header('gas'),
    counts: findingCounts,
    rooms: z.array(gasRow),
    scrubbers: z.array(
      z.strictObject({
        scrubber: z.string(),
        rooms: z.array(z.string()),
        place,
        capacity: measure
          .optional()
          .meta({ description: 'What it removes at the carbon dioxide its rooms hold.' }),
        settlesAt: measure.optional(),
        peak: loadWeek.optional(),
        weeks: z.array(loadWeek),
      }),
    ),
    nitrogen: z.array(
      z.strictObject({
        source: z.string(),
        rooms: z.array(z.string()),
        place,
        weeks: z.array(
          z.strictObject({
            week,
            hours: measure.optional().meta({ description: 'Hours it runs.' }),
            asked: measure.optional().meta({
              description: 'Flushes of the rooms sealed in the week, and what the weeks before left.',
            }),
            share: measure.optional().meta({ description: 'What is asked, of the week.' }),
          }),
        ),
      }),
    ),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright gas report', description: 'Printed by `lotwright gas --format json`.' });
