import { z } from 'zod';
import { day, findingCounts, header, week } from './parts';

const fillLot = z.strictObject({
  lot: z.string(),
  variety: z.string(),
  grower: z.string().optional(),
  bins: z.int(),
  term: z
    .enum(['long', 'mid', 'short', 'air'])
    .optional()
    .meta({ description: 'The storage term its maturity suits; absent without a test.' }),
  lastsTo: week.optional().meta({
    description: "Last week the lot is within standard in this regime, at the plan's confidence.",
  }),
});

const wayIn = z
  .strictObject({
    kind: z
      .enum(['ready', 'intake', 'waiting', 'growers', 'sealing', 'room', 'let-pass', 'order', 'regime'])
      .meta({
        description:
          'A room ready sooner, more bins let in on a day, a longer wait, growers who share, a later sealing, another room, findings let pass, an order more, another regime.',
      }),
    room: z.string().optional(),
    codes: z.array(z.string()).optional().meta({ description: 'Findings to be let pass.' }),
    beside: z
      .array(z.string())
      .optional()
      .meta({ description: 'Other lots taken out of the room that go in with it.' }),
    worth: z.number().optional().meta({
      description: 'Money that the quick schedule is worth more then; negative for less.',
    }),
    text: z.string(),
  })
  .meta({ description: 'A change that would place the bins, found by placing them again with it.' });

const fillRoom = z.strictObject({
  room: z.string(),
  fill: z.string().meta({ description: 'The name the fill gets in the plan.' }),
  regime: z.string(),
  bins: z.int().meta({ description: 'In the room, those of its fill in the plan among them.' }),
  binsBefore: z
    .int()
    .optional()
    .meta({ description: 'Of them, those that a fill of the plan holds already: the room is topped up.' }),
  places: z.int(),
  firstBin: day,
  lastBin: day,
  sealed: day.optional().meta({ description: 'Absent for a room kept in air.' }),
  mostBinsADay: z.int().meta({ description: 'On the busiest day of filling.' }),
  binsADayAllowed: z.int(),
  binsThatWait: z.int().meta({ description: 'Bins that go in a day or more after they are picked.' }),
  sealingPutOff: z
    .strictObject({ from: day, to: day, days: z.int(), bins: z.int(), binsAfter: z.int(), binsHeld: z.int() })
    .optional()
    .meta({
      description:
        'Of a fill topped up: days by which bins that come after its last put its sealing off, the bins gained, those of them that come so late, and the bins there that wait.',
    }),
  growers: z.array(z.string()),
  lots: z.array(fillLot),
  leavesBy: z
    .strictObject({ first: week, last: week, lot: z.string() })
    .optional()
    .meta({ description: 'Weeks its lots last to, and the lot that must leave first.' }),
  reasons: z.array(z.string()),
});

export const fillReport = z
  .strictObject({
    ...header('fill'),
    counts: findingCounts,
    cost: z.number().meta({
      description: 'In places of an empty room: rooms, bins left over, unlike fruit, splits, waiting.',
    }),
    bound: z.number().optional().meta({ description: 'No fill costs less; sought where rooms are few.' }),
    provenBest: z.boolean(),
    leastUnplaced: z.int().meta({ description: 'No fill of these rooms leaves fewer bins over.' }),
    leastUnplacedRestsOn: z.string(),
    violations: z
      .array(z.strictObject({ kind: z.string(), message: z.string() }))
      .meta({ description: 'What the independent checker finds wrong; empty for a good proposal.' }),
    totals: z.strictObject({
      lots: z.int(),
      bins: z.int(),
      binsPlaced: z.int(),
      binsUnplaced: z.int(),
      freeRooms: z.int(),
      roomsBegun: z
        .int()
        .optional()
        .meta({ description: 'Rooms of fills of the plan that may take more bins; absent where none.' }),
      roomsUsed: z.int(),
      roomsPartlyFilled: z.int(),
      lotsSplit: z.int().meta({ description: 'Lots in more than one room.' }),
      lotsSplitByIntake: z.int().meta({
        description:
          'Of them, those that no room could take whole, were it empty: by its places, its days and its daily intake.',
      }),
      lotsPartlyLeft: z
        .int()
        .meta({ description: 'Lots of which some bins have a room and some are left over.' }),
    }),
    splits: z
      .array(
        z.strictObject({
          lot: z.string(),
          rooms: z.array(z.string()),
          leftOver: z.int().meta({ description: 'Bins of it that find no room.' }),
          kind: z.enum(['forced', 'chosen']).meta({
            description:
              'Forced: no room could take it whole. Chosen: so that fewer bins are left over, or fewer rooms used.',
          }),
        }),
      )
      .meta({ description: 'Every lot that is not whole in one room.' }),
    rooms: z
      .array(fillRoom)
      .meta({ description: 'Rooms the proposal fills; only those asked for, where some were.' }),
    unplaced: z.array(
      z.strictObject({ lot: z.string(), bins: z.int(), reason: z.string(), waysIn: z.array(wayIn) }).meta({
        description:
          'A lot with bins left over, why, and what would place them; no way in where none was found.',
      }),
    ),
    takenOut: z
      .array(
        z.strictObject({
          room: z.string(),
          lot: z.string(),
          bins: z.int(),
          code: z.string().meta({
            description: 'The finding it would make; `release-value` where the schedule would be worth less.',
          }),
          reason: z.string(),
        }),
      )
      .meta({ description: 'What the search put into rooms, and the plan with it would be the worse for.' }),
    value: z.strictObject({ currency: z.string(), before: z.number(), after: z.number() }).optional().meta({
      description: "What the plan's quick release schedule is worth without and with the proposal.",
    }),
    today: day.optional().meta({ description: 'The day that rooms are taken to be sealed by, or not.' }),
    notToppedUp: z
      .array(z.strictObject({ fill: z.string(), room: z.string(), reason: z.string() }))
      .optional()
      .meta({ description: 'With --top-up: fills that take no more bins.' }),
    remarks: z.array(z.string()),
    heavier: z
      .array(
        z.strictObject({
          code: z.string(),
          about: z.string(),
          before: z.number().meta({ description: 'Load at its worst without the proposal, per cent.' }),
          after: z.number().meta({ description: 'The same with it.' }),
          week: week.optional(),
        }),
      )
      .meta({ description: 'Overloads that the plan has already and that the proposal makes heavier.' }),
    leftOut: z
      .array(z.strictObject({ what: z.string(), bins: z.int(), reason: z.string(), waysIn: z.array(wayIn) }))
      .meta({
        description:
          'Lots and rooms that are not planned with: the plan lacks something, or they are not worth a room.',
      }),
    written: z
      .array(z.strictObject({ fill: z.string(), file: z.string() }))
      .optional()
      .meta({ description: "Fills put into the plan's files." }),
    caution: z.string(),
  })
  .meta({ title: 'Lotwright fill report', description: 'Printed by `lotwright fill --format json`.' });
