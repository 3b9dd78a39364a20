import { z } from 'zod';
import { findingCounts, header, place, week } from './parts';
import { roomReason, shortageCure } from './reason';
import { uncertainty } from './uncertainty';

const releaseRoom = z.strictObject({
  room: z.string(),
  fill: z.string(),
  varieties: z.array(z.string()),
  place,
  bins: z.number(),
  earliest: week,
  bestBefore: week,
  latest: week,
  opens: week.optional().meta({ description: 'Absent for a room the schedule leaves closed.' }),
  emptyBy: week.optional(),
  pinned: z.boolean(),
  reason: roomReason,
});

const releaseWeek = z.strictObject({
  week,
  opens: z.array(z.string()).meta({ description: 'Rooms that open in the week.' }),
  binsPacked: z.number(),
  packingCapacity: z.number(),
  cartonsDemanded: z.number(),
  cartonsSold: z.number(),
  cartonsShort: z.number(),
  cartonsProcessed: z.number(),
});

const releaseShortage = z.strictObject({
  demand: z.string(),
  market: z.string(),
  variety: z.string(),
  packClass: z.string(),
  cartonsShort: z.number(),
  cartonsDemanded: z.number(),
  weeks: z.array(z.strictObject({ week, cartonsShort: z.number(), cure: shortageCure })),
});

export const releaseReport = z
  .strictObject({
    ...header('release'),
    counts: findingCounts,
    currency: z.string(),
    value: z.number().meta({ description: 'Sales and processing less shortage, waiting and risk.' }),
    bound: z.number().optional().meta({ description: 'No schedule can be worth more than this.' }),
    gap: z
      .number()
      .optional()
      .meta({ description: 'Distance from the bound as a share: 0.02 is two per cent.' }),
    boundRestsOn: z.string(),
    provenOptimal: z.boolean(),
    stoppedEarly: z
      .boolean()
      .meta({ description: 'Stopped by the planner: the best schedule found until then.' }),
    violations: z
      .array(z.strictObject({ kind: z.string(), message: z.string() }))
      .meta({ description: 'What the independent checker finds wrong; empty for a good schedule.' }),
    conflicts: z.array(z.string()),
    changes: z
      .strictObject({
        kept: z.int().meta({ description: 'Rooms that open in their published week.' }),
        cost: z.number().meta({ description: 'What the changes count in the value.' }),
        moved: z.array(
          z.strictObject({ room: z.string(), fill: z.string(), from: week, to: week.optional() }),
        ),
      })
      .optional()
      .meta({
        description: 'Changes from the published schedule, where one was given; without `to` left closed.',
      }),
    uncertainty: uncertainty.optional().meta({ description: 'With `--draws`: seasons that could come.' }),
    written: z
      .array(z.strictObject({ fill: z.string(), room: z.string(), file: z.string(), week }))
      .optional()
      .meta({ description: 'Weeks that were written into the plan.' }),
    totals: z.strictObject({
      bins: z.number(),
      binsPacked: z.number(),
      cartonsDemanded: z.number(),
      cartonsSold: z.number(),
      cartonsShort: z.number(),
      cartonsProcessed: z.number(),
      sales: z.number(),
      shortageCost: z.number(),
    }),
    weeks: z.array(releaseWeek),
    rooms: z.array(releaseRoom),
    shortages: z.array(releaseShortage),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright release report', description: 'Printed by `lotwright release --format json`.' });
