import { z } from 'zod';
import { day, findingCounts, header, measure, place, source, week } from './parts';

const windowEdge = z.strictObject({
  week,
  limit: z.string().meta({
    description:
      'What sets it: storage life, firmness, disorder, law, cooling and gas, cooling (of a room in air), season.',
  }),
  lot: z.string().optional(),
});

const windowMove = z
  .strictObject({
    change: z.string(),
    earliest: week,
    bestBefore: week,
    latest: week,
    latestLaterBy: z.int().meta({ description: 'Weeks; below 0 where the latest week comes sooner.' }),
    earliestSoonerBy: z.int(),
  })
  .meta({ description: 'One thing changed, and the window computed again.' });

const risk = z
  .strictObject({
    disorder: z.string().meta({ description: 'As under `varieties: disorders`.' }),
    title: z.string(),
    variety: z.string(),
    lots: z.array(z.string()),
    susceptible: z.enum(['highly', 'moderately']),
    from: week,
    until: week.optional().meta({ description: 'Absent: to the end of storage.' }),
    packedBy: week.optional().meta({
      description: 'Last week of packing because of it, where a source or the plan gives a number.',
    }),
    inWindow: z.boolean().meta({
      description: 'It begins before the room is packed out, were it opened in its latest week.',
    }),
    because: z.string(),
    eased: z.string().optional().meta({ description: 'What lessens it here.' }),
    told: z.string(),
    source,
  })
  .meta({ description: 'A disorder that threatens; no chance is given, for none is published that holds.' });

const latestAt = z
  .strictObject({
    confidence: z.number().meta({ description: 'Per cent.' }),
    plans: z.literal(true).optional().meta({ description: "The plan's own: `latest` of the window." }),
    latest: week,
    limit: z.string().meta({ description: 'As of an edge of the window.' }),
    lot: z.string().optional(),
    empty: z.literal(true).optional().meta({ description: 'It lies before the earliest week.' }),
  })
  .meta({
    description:
      'The latest week in which opening lets the room be packed out within standard, at a confidence.',
  });

const spread = z
  .strictObject({
    of: z.enum(['storage life', 'firmness']),
    known: z
      .enum(['published', 'common practice', 'from memory', 'plan', 'samples'])
      .meta({ description: '`plan`: the planner gives it; `samples`: fitted to those of the lot.' }),
  })
  .meta({ description: 'How well a spread is known that the chances are reckoned with.' });

const windowRow = z.strictObject({
  room: z.string(),
  fill: z.string(),
  varieties: z.array(z.string()),
  regime: z.string().optional(),
  place,
  bins: measure.optional(),
  sealed: day.optional(),
  earliest: windowEdge.optional(),
  bestBefore: windowEdge.optional(),
  latest: windowEdge.optional(),
  weeksWide: z.int().optional(),
  gasAssumed: z
    .strictObject({
      days: z.number().meta({ description: 'Days from sealing to the gas that the window counts.' }),
      setPoint: day.optional().meta({ description: 'By its course; absent: never before it opens.' }),
      late: z.boolean().meta({ description: 'The set-point comes after the earliest week has begun.' }),
      carbonDioxideAbove: day.optional().meta({
        description: 'Without a scrubber: from here on it is above what the fruit bears.',
      }),
    })
    .optional()
    .meta({ description: "What the window takes for granted of the gas and the room's course contradicts." }),
  byConfidence: z.array(latestAt).meta({
    description: 'The highest confidence first; empty without a window and of a room that was opened.',
  }),
  spreads: z.array(spread).meta({ description: 'Of the lots that set a week of `byConfidence`.' }),
  opened: day.optional().meta({
    description:
      'It was opened on this day: it has no moves, risks, pin or status, and comes after the others.',
  }),
  emptied: day.optional().meta({ description: 'The last of its fruit left it on this day.' }),
  moves: z.array(windowMove).meta({ description: 'What would move an edge, the most for the latest first.' }),
  risks: z.array(risk).meta({ description: 'Disorders that threaten its lots, the first to come first.' }),
  empty: z.boolean().optional().meta({ description: 'The latest week lies before the earliest.' }),
  tooLarge: z
    .strictObject({
      packableBins: z.number().meta({ description: 'Most that the packhouse runs while it is emptied.' }),
      weeks: z.int().meta({ description: 'Weeks in which it must be empty.' }),
    })
    .optional()
    .meta({
      description:
        'It can be opened in no week: it holds more bins than the packhouse runs while it is emptied.',
    }),
  pinned: week.optional(),
  chosen: week.optional().meta({ description: 'Without a pin: the week a quick schedule opens it in.' }),
  weekPassed: z
    .literal(true)
    .optional()
    .meta({ description: 'The week chosen lies before the day asked for, and is no pin.' }),
  status: z
    .enum(['no week', 'not yet', 'within window', 'past best before', 'past latest', 'pinned week past'])
    .optional()
    .meta({
      description:
        'Where the day asked for lies; `no week` for a room that can be opened in none; absent outside the season or without a window.',
    }),
});

export const windowsReport = z
  .strictObject({
    ...header('windows'),
    counts: findingCounts,
    today: day,
    confidence: measure.optional(),
    rooms: z.array(windowRow),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright windows report', description: 'Printed by `lotwright windows --format json`.' });
