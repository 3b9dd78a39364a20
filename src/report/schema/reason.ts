import { z } from 'zod';
import { day, week } from './parts';

const moreShort = z.strictObject({
  demand: z.string(),
  cartons: z.number(),
  weeks: z.array(week).meta({ description: 'Weeks in which fewer cartons are sold.' }),
});

const breach = z.strictObject({
  kind: z.enum(['season', 'earliest', 'latest', 'pin', 'packing', 'order', 'rooms-open']),
  message: z.string(),
});

export const otherWeek = z
  .strictObject({
    week,
    costs: z.number().optional().meta({
      description:
        'Money less, every other room as it is; negative where it would bring more. Absent where the room could not be packed out.',
    }),
    breaks: z.array(breach).meta({ description: 'Wishes that it would break.' }),
    short: z.array(moreShort).meta({ description: 'Demand that would be short by more cartons.' }),
  })
  .meta({ description: 'The room opened in another week, everything else as it is.' });

export const roomReason = z
  .strictObject({
    earlier: otherWeek.optional(),
    later: otherWeek.optional(),
    closedCosts: z.number().optional().meta({ description: 'Money less, were the room left closed.' }),
    opened: z
      .strictObject({
        on: day,
        notRecorded: z.literal(true).optional().meta({
          description:
            'No opening is recorded: the day is the first of its packing, the latest it can have been.',
        }),
      })
      .optional()
      .meta({ description: 'It has been opened: its week is no longer a choice, and no other is told.' }),
    instead: otherWeek.optional().meta({
      description:
        'For a room left closed: the week of its window in which opening it would cost least, of those that break nothing if there are any.',
    }),
  })
  .meta({ description: 'Why this week: what another would cost and break, found by solving each again.' });

/** A room in another week than now, and what that costs. */
const openedOtherwise = {
  room: z.string(),
  fill: z.string(),
  opens: week,
  insteadOf: week.optional().meta({ description: 'Absent for a room that stays closed now.' }),
  costs: z.number().meta({ description: 'Money less in all; negative where it would bring more.' }),
};

export const shortageCure = z
  .strictObject({
    room: z
      .strictObject({
        ...openedOtherwise,
        cartons: z.number().meta({ description: 'Cartons fewer that the demand is short of in the season.' }),
        cartonsInWeek: z.number().meta({ description: 'Of them, in this week.' }),
        also: z
          .strictObject({
            room: z.string(),
            fill: z.string(),
            opens: week,
            insteadOf: week.optional(),
          })
          .optional()
          .meta({
            description: 'A second room that must move with it to make way; costs and cartons are of both.',
          }),
      })
      .optional(),
    packing: z
      .strictObject({ week, bins: z.number(), cartons: z.number() })
      .optional()
      .meta({ description: 'Bins more that the packhouse would have to run in a week.' }),
    unpin: z
      .strictObject({
        room: z.string(),
        fill: z.string(),
        pinned: week.meta({ description: 'The pin to take out.' }),
        opens: week.meta({ description: 'The week to open it in instead; only the pin forbids it.' }),
        costs: z.number().meta({ description: 'Money less in all; negative where it would bring more.' }),
        cartons: z.number().meta({ description: 'Cartons fewer that the demand is short of in the season.' }),
        cartonsInWeek: z.number().meta({ description: 'Of them, in this week.' }),
        cartonsStillShort: z
          .number()
          .meta({ description: 'Cartons that the demand then stays short of in the season.' }),
        also: z
          .strictObject({
            room: z.string(),
            fill: z.string(),
            opens: week,
            insteadOf: week.optional(),
            pinned: week.optional().meta({ description: 'Its pin, to be taken out too.' }),
          })
          .optional()
          .meta({
            description: 'A second room that must move with it; costs and cartons are of both.',
          }),
      })
      .optional()
      .meta({
        description:
          'A pinned room that would cure more than room and packing do, or as much for less; a promise to let go of, so it comes after them.',
      }),
    policy: z
      .array(
        z.strictObject({
          key: z.enum(['packed-wait', 'days-to-empty']).meta({ description: 'The key under `packing`.' }),
          days: z.number().meta({ description: 'The value that was tried.' }),
          insteadOf: z.number().meta({ description: 'The value that the plan has now, in days.' }),
          cartons: z
            .number()
            .meta({ description: 'Cartons fewer that the demand is short of in the season.' }),
          cartonsInWeek: z.number().meta({ description: 'Of them, in this week.' }),
          room: z
            .strictObject({
              ...openedOtherwise,
              also: z
                .strictObject({ room: z.string(), fill: z.string(), opens: week, insteadOf: week.optional() })
                .optional(),
            })
            .optional()
            .meta({
              description: 'The room that gives them then; in its week of now, its bins spread anew.',
            }),
        }),
      )
      .optional()
      .meta({
        description:
          'Values of the plan that would cure more of it than room and packing do, each tried on this schedule; to be weighed against how the fruit keeps.',
      }),
    smallerOrder: z.number().meta({
      description:
        'Cartons that the order would have to be smaller by after the better of room and packing, every pin kept; all that is short where there is neither.',
    }),
    nothingInReach: z
      .boolean()
      .meta({ description: 'No room that may be opened in time gives the product.' }),
    noSupply: z
      .strictObject({
        kind: z.enum(['class', 'variety', 'market', 'firmness', 'weeks']),
        why: z.string(),
        cure: z.string(),
      })
      .optional()
      .meta({ description: 'Why none does, and what to do about it.' }),
  })
  .meta({ description: 'What would cure the shortage, found by solving each again.' });
