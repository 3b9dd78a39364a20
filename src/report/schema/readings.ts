import { z } from 'zod';
import { day, header, measure, severity, source } from './parts';

const time = z
  .string()
  .regex(/^\d{4}-\d{2}-\d{2} \d{2}:\d{2}$/)
  .meta({ description: 'By the clock of the file.', examples: ['2026-09-18 06:00'] });

const quantity = z.enum(['oxygen', 'carbon-dioxide', 'temperature']);

const sighting = z
  .strictObject({
    kind: z.enum([
      'opened-room-low-oxygen',
      'oxygen-low',
      'oxygen-high',
      'carbon-dioxide-high',
      'carbon-dioxide-low',
      'temperature-high',
      'temperature-low',
      'breathes-faster',
      'sensor-stuck',
      'sensor-jumps',
      'record-gap',
    ]),
    severity: severity.meta({ description: 'What is over is a notice, but for a gap that the law minds.' }),
    room: z.string(),
    fill: z.string(),
    quantities: z.array(quantity).min(1),
    from: time.meta({ description: 'When it began, as far as the record tells.' }),
    told: time.meta({ description: 'The reading, or the end of the day, that made it certain.' }),
    until: time.meta({ description: 'When it was over; absent while it lasts.' }).optional(),
    size: measure.meta({
      description:
        'At its greatest: distance from what is expected, per cent above the rate before, hours, jumps or days.',
    }),
    read: measure.optional(),
    expected: measure.optional(),
    message: z.string(),
    causes: z.array(z.string()).meta({ description: 'The likeliest first.' }),
    check: z.string().meta({ description: 'What to look at first.' }),
    caution: z.string().meta({ description: 'Where looking means going near the room.' }).optional(),
  })
  .meta({ description: 'Something in the readings that is not as expected.' });

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
        newRows: z
          .int()
          .meta({ description: 'Rows read this time; the others are known from the kept state.' })
          .optional(),
        faults: z
          .array(z.strictObject({ line: z.int().min(1), reason: z.string() }))
          .meta({ description: 'The first of the rows that are not taken.' }),
      }),
    ),
    rooms: z.array(
      z.strictObject({
        room: z.string(),
        fill: z.string().optional(),
        rise: z.strictObject({ latest: z.number().optional(), reference: z.number().optional() }).meta({
          description:
            'Carbon dioxide between scrubbings, per cent a day, and what it is held against; empty where it cannot be seen.',
        }),
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
    sightings: z.array(sighting),
    limits: z
      .array(z.strictObject({ name: z.string(), value: measure, source }))
      .meta({ description: 'From where on a difference is told: planning assumptions, no rule of anybody.' }),
    caution: z.string(),
  })
  .meta({
    title: 'Lotwright readings report',
    description: 'Printed by `lotwright readings --format json`.',
  });
