import { z } from 'zod';
import { day, findingCounts, header, measure, place } from './parts';

/** What a room's course comes to; hours and totals count from sealing. */
export const courseSummary = z.strictObject({
  hoursToFivePercent: measure.optional().meta({ description: 'From sealing to 5 % oxygen.' }),
  hoursToSetPoint: measure.optional().meta({ description: "From sealing to the regime's oxygen." }),
  lowestOxygen: measure.optional(),
  highestCarbonDioxide: measure.optional(),
  oxygenAtEnd: measure.optional().meta({ description: 'When the room opens.' }),
  oxygenRise: measure.optional().meta({
    description: 'Points by which oxygen is above its set-point when the room opens.',
  }),
  carbonDioxideMade: measure.optional(),
  nitrogenFed: measure.optional(),
  ethanolMade: measure.optional().meta({
    description: 'Left in the fruit by fermentation; absent where oxygen is far enough above its breakpoint.',
  }),
  weightLost: measure.optional(),
});

/** At the low end, the expected and the high end of the sources' respiration in store. */
export const courseCasesShape = z.strictObject({
  daysToCold: measure.optional().meta({
    description:
      'From the first bin until all fruit is seven-eighths cool: at its warm hold, where it has one.',
  }),
  daysToStorage: measure.optional().meta({
    description: "After a warm hold: from the first bin until the room is at its regime's temperature.",
  }),
  low: courseSummary.optional(),
  expected: courseSummary.optional(),
  high: courseSummary.optional(),
});

const point = z.strictObject({
  day,
  daysSealed: z.number(),
  oxygen: measure.optional(),
  carbonDioxide: measure.optional(),
  temperature: measure.optional().meta({ description: 'Mean of the fruit.' }),
  carbonDioxideMade: measure.optional().meta({ description: 'Since sealing.' }),
  scrubbed: measure.optional().meta({ description: 'Since sealing.' }),
  nitrogenFed: measure.optional().meta({ description: 'Since sealing.' }),
});

export const courseReport = z
  .strictObject({
    ...header('course'),
    counts: findingCounts,
    room: z.string(),
    courses: z.array(
      z.strictObject({
        fill: z.string(),
        place,
        sealed: day,
        opens: day,
        staysShut: z.literal(true).optional().meta({
          description: 'No week opens it: `opens` is the day after the season, to which it is counted.',
        }),
        assumptions: z.array(z.string()).meta({ description: 'What the plan lacked and was assumed.' }),
        cases: courseCasesShape,
        events: z.array(z.strictObject({ day, hours: z.number(), what: z.string() })),
        points: z.array(point).meta({ description: 'By day for the first three weeks, then by week.' }),
      }),
    ),
    caution: z.string(),
  })
  .meta({
    title: 'Lotwright course report',
    description: 'Printed by `lotwright gas --room <room> --format json`.',
  });
