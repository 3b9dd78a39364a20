import { z } from 'zod';
import { day, header, measure, week } from './parts';

const worth = z
  .strictObject({
    lot: z.string(),
    expected: measure.meta({ description: 'Firmness expected on the day of the test.' }),
    spread: measure.meta({ description: 'How far the lot may be from it: a standard deviation.' }),
    sampleSpread: measure.meta({ description: 'The same of the mean of the sample.' }),
    ifLow: week,
    ifExpected: week,
    ifHigh: week,
    binWeeks: z
      .number()
      .meta({ description: 'Weeks between low and high, times the bins of the room: what it is worth.' }),
  })
  .meta({
    description:
      "The room's latest opening week after a sample that comes in a standard deviation low, as expected, or high.",
  });

export const samplingReport = z
  .strictObject({
    ...header('sampling'),
    from: day.meta({ description: 'Looked at from this day; absent where no record gives one.' }).optional(),
    samples: z.array(
      z.strictObject({
        week,
        first: day,
        last: day,
        room: z.string(),
        fill: z.string(),
        which: z.string(),
        what: z.string(),
        of: z.array(z.string()).meta({ description: 'Lots, or orchards: fruit is taken of each.' }),
        fruitEach: z.int(),
        tests: z.string(),
        source: z.string().meta({ description: 'The publication or rule of thumb it follows.' }),
        overdue: z.boolean(),
        latest: week.meta({ description: "The room's latest opening week as it is known now." }).optional(),
        worth: z.array(worth).meta({ description: 'By lot, the most worth first; of tests by the door.' }),
      }),
    ),
    hatchRule: z.string(),
    caution: z.string(),
  })
  .meta({
    title: 'Lotwright sampling report',
    description: 'Printed by `lotwright sampling --format json`.',
  });
