import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { FlowNetwork } from '../../src/fill/flow';
import { parseDay } from '../../src/plan/dates';
import { checkSchedule } from '../../src/release/checker';
import { fits, smallestColliding } from '../../src/release/colliding';
import { findConflicts } from '../../src/release/conflicts';
import { type PinnedRoom, pinnedRooms } from '../../src/release/pins';
import { quickRelease } from '../../src/release/quick';
import { solveRelease } from '../../src/release/solve';
import type { ProblemRoom, ReleaseProblem } from '../../src/release/types';
import { madeProblem } from './generate';
import { loadHighs } from './highs';

const base = madeProblem({ rooms: 4, weeks: 20, varieties: 1, weeksToEmpty: 2 }, 1);

/** Four rooms of 1000 bins with a window of weeks 3 to 12, and a packhouse for 1500 bins a week. */
function season(
  change: (room: ProblemRoom, index: number) => Partial<ProblemRoom>,
  more: Partial<ReleaseProblem> = {},
): ReleaseProblem {
  const rooms = base.rooms.map((room, index) => {
    const plain = { ...room, bins: 1000, earliest: 3, latest: 12, pinned: null };
    return { ...plain, ...change(plain, index) };
  });
  return { ...base, rooms, packingBins: base.packingBins.map(() => 1500), ...more };
}

function expectLeftClosed(problem: ReleaseProblem, rooms: number[]): void {
  const result = quickRelease(problem, { seed: 1, moves: 500 });
  expect(result.unmet).toEqual(rooms);
  for (const room of rooms) expect(result.schedule.opens[room]).toBeNull();
  expect(checkSchedule(problem, result.schedule, result.unmet)).toEqual([]);
}

describe('pins and windows that cannot be kept', () => {
  it('are none in a season where all can', () => {
    expect(findConflicts(season((_, index) => ({ pinned: 3 + 2 * index }))).messages).toEqual([]);
  });

  it('a pin outside its window is named with the window', () => {
    const problem = season((_, index) => (index === 1 ? { pinned: 15 } : {}));
    const { messages } = findConflicts(problem);
    expect(messages).toEqual([
      // Week 0 is 2026-W36, and 2026 has 53 weeks.
      'Room R2 (fill-002) is pinned to 2026-W51, but can be opened only from 2026-W39 to 2026-W48. ' +
        'Move the pin, or take it out.',
    ]);
    expectLeftClosed(problem, [1]);
  });

  it('an empty window is named', () => {
    const problem = season((_, index) => (index === 2 ? { earliest: 9, latest: 7 } : {}));
    expect(findConflicts(problem).messages).toEqual([
      'Room R3 (fill-003) has no week in which it can be opened: not before 2026-W45, and not after 2026-W43. ' +
        'Take its weakest lot out, choose another regime, or empty it faster.',
    ]);
    expectLeftClosed(problem, [2]);
  });

  it('a room too large for the packhouse is named with what it can run', () => {
    const problem = season((_, index) => (index === 0 ? { bins: 3200 } : {}));
    expect(findConflicts(problem).messages).toEqual([
      'Room R1 (fill-001) holds 3,200 bins, but in the 2 weeks that its emptying may take the packhouse can run ' +
        'at most 3,000 in 2026-W39 to 2026-W40; in no week of its window more. ' +
        'Raise `bins-a-week` or `days-to-empty`, or put its fruit into two rooms.',
    ]);
    expectLeftClosed(problem, [0]);
  });

  it('of a packhouse too small for any room each is told, and the season is solved without them', async () => {
    const problem = season((room) => ({ bins: room.bins + 2100 }));
    const result = await solveRelease(problem, {
      seed: 1,
      moves: 500,
      timeLimitSeconds: 10,
      gap: 0,
      loadHighs,
    });
    expect(result.conflicts).toHaveLength(4);
    for (const [at, told] of result.conflicts.entries())
      expect(told).toContain(`Room R${at + 1} (fill-00${at + 1}) holds 3,100 bins`);
    expect(result.schedule.opens).toEqual([null, null, null, null]);
    expect(result.provenOptimal).toBe(true);
    // Every order goes short, and that is all it comes to.
    const wanted = problem.demands.map(
      ({ priceOfShortage, cartons }) => priceOfShortage * cartons.reduce((sum, one) => sum + one, 0),
    );
    expect(result.schedule.value).toBeCloseTo(-wanted.reduce((sum, one) => sum + one, 0), 4);
  });

  it('of pins that collide in the packhouse only those that do are named', () => {
    // Rooms 1 to 3 must be packed in weeks 5 to 7: 4200 bins into 4500, which fits; with room 4 it does not.
    const problem = season((_, index) => ({
      pinned: index === 1 ? 6 : 5,
      bins: [1400, 1500, 1300, 1250][index] ?? 0,
    }));
    const { messages, unmet } = findConflicts(problem);
    expect(messages).toEqual([
      'R1, R3 and R4 all have to open in 2026-W41, and the packhouse can take two: they hold 3,950 bins, and in the ' +
        'weeks they must be emptied in it runs at most 3,000 of them, 2026-W41 to 2026-W42. ' +
        'Room R4 is left closed here.',
    ]);
    expect(unmet).toEqual([3]);
    expectLeftClosed(problem, [3]);
  });

  it('closed days in the weeks are named with what they leave', () => {
    // Week 5 is 2026-W41, which begins on Monday 2026-10-05; four days of it and of the days to empty are left.
    const problem = season((_, index) => ({ pinned: 5, bins: [1400, 900, 800, 300][index] ?? 0 }), {
      packingBins: base.packingBins.map((_, week) => (week === 5 ? 1200 : 1500)),
      lastWeekBins: base.packingBins.map(() => 900),
      days: {
        starts: parseDay('2026-08-31') ?? 0,
        ends: parseDay('2027-01-17') ?? 0,
        daysAWeek: 5,
        closed: [parseDay('2026-10-06') ?? 0],
        daysToEmpty: 10,
        packedWaitDays: 14,
      },
    });
    // Two pairs collide, and R1 is in both: left closed, the others fit.
    expect(findConflicts(problem).messages).toEqual([
      'R1 and R2 both have to open in 2026-W41, and the packhouse can take one: they hold 2,300 bins, and in the weeks ' +
        'they must be emptied in it runs at most 2,100 of them, 2026-W41 to 2026-W42 (closed on 2026-10-06, so ' +
        '2026-W41 takes 4 of 5 days, 1,200 bins; the 10 days to empty a room end with 2026-10-14, so 2026-W42 takes 900 ' +
        'of their bins). Room R1 is left closed here.',
    ]);
  });

  it('no smaller set collides than the one named, on random pins', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.record({ pinned: fc.integer({ min: 3, max: 6 }), bins: fc.integer({ min: 200, max: 1600 }) }),
          {
            minLength: 4,
            maxLength: 4,
          },
        ),
        fc.constantFrom(null, 2),
        fc.constantFrom(undefined, 700),
        (rooms, roomsOpenAtOnce, last) => {
          const problem = season((_, index) => rooms[index] ?? {}, {
            roomsOpenAtOnce,
            ...(last !== undefined && { lastWeekBins: base.packingBins.map(() => last) }),
          });
          const all = pinnedRooms(problem);
          if (fits(problem, all)) return;
          const named = smallestColliding(problem, all);
          expect(fits(problem, named)).toBe(false);
          for (let mask = 1; mask < 2 ** all.length; mask++) {
            const some = all.filter((_, index) => (mask >> index) & 1);
            if (some.length < named.length) expect(fits(problem, some)).toBe(true);
          }
        },
      ),
      { numRuns: 300 },
    );
  });

  it('as few rooms are left closed as can be, with the fewest bins: as by trying every choice', () => {
    const pins = fc.record({
      pinned: fc.integer({ min: 3, max: 7 }),
      bins: fc.integer({ min: 200, max: 1600 }),
      weeksToEmpty: fc.integer({ min: 1, max: 3 }),
    });
    let together = 0;
    fc.assert(
      fc.property(
        fc.array(pins, { minLength: 4, maxLength: 6 }),
        fc.constantFrom(null, 1, 2, 3),
        fc.constantFrom(undefined, 700),
        fc.integer({ min: 900, max: 2500 }),
        (rooms, roomsOpenAtOnce, last, packing) => {
          const problem = seasonOf(rooms, packing, roomsOpenAtOnce, last);
          const all = pinnedRooms(problem).filter(({ bins, week, until }) => {
            // A room that cannot be emptied whatever the others do is told by itself.
            const weeks = until - week + 1;
            return bins <= (weeks - 1) * packing + Math.min(packing, last ?? packing) + 1e-6;
          });
          const { unmet } = findConflicts(problem);
          const alone = problem.rooms.flatMap((_, room) =>
            all.some((one) => one.room === room) ? [] : [room],
          );
          const closed = unmet.filter((room) => !alone.includes(room));
          const binsOf = (some: readonly { readonly bins: number }[]) =>
            some.reduce((sum, one) => sum + one.bins, 0);
          let best = { count: Number.POSITIVE_INFINITY, bins: 0 };
          for (let mask = 0; mask < 2 ** all.length; mask++) {
            const [out, kept] = [
              all.filter((_, at) => (mask >> at) & 1),
              all.filter((_, at) => !((mask >> at) & 1)),
            ];
            if (!canAllOpen(problem, kept)) continue;
            if (out.length < best.count || (out.length === best.count && binsOf(out) < best.bins))
              best = { count: out.length, bins: binsOf(out) };
          }
          expect(closed.length).toBe(best.count);
          expect(binsOf(all.filter(({ room }) => closed.includes(room)))).toBe(
            best.count === 0 ? 0 : best.bins,
          );
          if (best.count >= 2) together += 1;
        },
      ),
      { numRuns: 400 },
    );
    // Among them enough in which no one room alone makes way.
    expect(together).toBeGreaterThanOrEqual(50);
  });

  it('an order that the windows leave no weeks for is named, and the smallest room without a pin left closed', () => {
    const problem = season(
      (_, index) => [{ earliest: 8 }, { pinned: 9 }, { latest: 9, bins: 900 }, {}][index] ?? {},
      {
        opensBefore: [
          [0, 1],
          [1, 2],
          [3, 0],
        ],
      }, // R4 before R1 before R2 before R3
    );
    const { messages } = findConflicts(problem);
    expect(messages).toEqual([
      'fill-002 before fill-003 cannot be kept: fill-002 is pinned to 2026-W45, and fill-003 may open no later ' +
        'than 2026-W45. fill-003 is left closed here.',
    ]);
    expectLeftClosed(problem, [2]);
  });

  it('a chain that is too short by a week is named as a whole', () => {
    const problem = season((_, index) => (index === 2 ? { latest: 4, bins: 1100 } : {}), {
      opensBefore: [
        [0, 1],
        [1, 2],
      ],
    });
    expect(findConflicts(problem).messages).toEqual([
      'fill-001 before fill-002 before fill-003 cannot be kept: fill-001 may not open before 2026-W39, and ' +
        'fill-003 may open no later than 2026-W40. fill-001 is left closed here.',
    ]);
    expectLeftClosed(problem, [0]);
  });

  it('an order in a circle is named, the shortest circle first', () => {
    const problem = season(() => ({}), {
      opensBefore: [
        [0, 1],
        [1, 2],
        [2, 0],
        [1, 0],
      ],
    });
    const { messages, unmet } = findConflicts(problem);
    expect(messages[0]).toContain('cannot be kept: it goes round in a circle.');
    expect(messages[0]).toMatch(
      /^(fill-001 before fill-002 before fill-001|fill-002 before fill-001 before fill-002) /,
    );
    expectLeftClosed(problem, [...unmet]);
  });

  it('pins that would leave too many rooms open at once are named', () => {
    const problem = season((_, index) => (index < 2 ? { pinned: 5 + index } : {}), { roomsOpenAtOnce: 1 });
    const { messages } = findConflicts(problem);
    expect(messages).toEqual([
      'R1 has to open in 2026-W41 and R2 has to open in 2026-W42, and only one room may stand open at once. ' +
        'Room R1 is left closed here.',
    ]);
    expectLeftClosed(problem, [0]);
  });
});

/** So many rooms with these pins, each by itself within its window. */
function seasonOf(
  rooms: readonly Partial<ProblemRoom>[],
  packing: number,
  roomsOpenAtOnce: number | null,
  last: number | undefined,
): ReleaseProblem {
  const problem = season(() => ({}), {
    roomsOpenAtOnce,
    packingBins: base.packingBins.map(() => packing),
    ...(last !== undefined && { lastWeekBins: base.packingBins.map(() => last) }),
  });
  const [first] = problem.rooms;
  if (!first) throw new Error('a season has rooms');
  const named = rooms.map((room, index) => ({
    ...first,
    ...room,
    room: `R${index + 1}`,
    fill: `fill-${index + 1}`,
  }));
  return { ...problem, rooms: named };
}

/** By the most that flows from rooms through their weeks, and by counting open rooms: nothing of the solver's own. */
function canAllOpen(problem: ReleaseProblem, rooms: readonly PinnedRoom[]): boolean {
  const network = new FlowNetwork();
  const [source, sink] = [network.node(), network.node()];
  const weeks = problem.packingBins.map((bins, week) => {
    const node = network.node();
    network.edge(node, sink, bins);
    // Rooms whose time ends within the week share its first days.
    const early = network.node();
    network.edge(early, node, Math.min(bins, problem.lastWeekBins?.[week] ?? bins));
    return { node, early };
  });
  for (const { week, until, bins, endsWithin } of rooms) {
    const node = network.node();
    network.edge(source, node, bins);
    for (let at = week; at <= until; at++) {
      const into = weeks[at];
      if (into) network.edge(node, endsWithin && at === until ? into.early : into.node, bins);
    }
  }
  const limit = problem.roomsOpenAtOnce ?? rooms.length;
  const open = problem.packingBins.map(
    (_, week) => rooms.filter((one) => one.week <= week && week <= one.until).length,
  );
  const all = rooms.reduce((sum, one) => sum + one.bins, 0);
  return Math.max(0, ...open) <= limit && network.mostFlow(source, sink) >= all - 1e-6;
}
