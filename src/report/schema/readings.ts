import { z } from 'zod';
import { day, header, measure } from './parts';

const time = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2} \d{2}:\d{2}$/)
  .meta({ description: 'By the clock of the file.', examples: ['2026-09-18 06:00'] });

export const readingsReport = z
  .strictObject({
    ...header('readings'),
    files: z.array(
      z.strictObject({
        readings: z.string().meta({ description: 'The entry of `readings` in the plan.' }),
        file: z.string(),
        rows: z.int(),
        repeated: z
          .int()
          .meta({ description: 'Rows of a room and time that the file has before; the last counts.' }),
        notTaken: z.int(),
        faults: z
          .array(z.strictObject({ line: z.int().min(1), reason: z.string() }))
          .meta({ description: 'The first of the rows that are not taken.' }),
      }),
    ),
    rooms: z.array(
      z.strictObject({
        room: z.string(),
        fill: z.string().optional(),
        quantities: z.array(
          z.strictObject({
            quantity: z.enum(['oxygen', 'carbon-dioxide', 'temperature', 'humidity']),
            count: z.int(),
            from: time,
            to: time,
            latest: measure,
            lowest: measure,
            mean: measure,
            highest: measure,
            setPoint: measure.meta({ description: "The regime's, where it has one." }).optional(),
            computed: measure
              .meta({ description: 'What the plan expects at the time of the latest reading.' })
              .optional(),
            longestGap: z.strictObject({ hours: z.number(), from: time }).optional(),
            daysWithout: z
              .array(day)
              .meta({ description: 'Days between the first and the last without a reading.' }),
          }),
        ),
      }),
    ),
    caution: z.string(),
  })
  .meta({
    title: 'Lotwright readings report',
    description: 'Printed by `lotwright readings --format json`.',
  });
