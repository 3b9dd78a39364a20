import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { quickRelease } from '../../src/release/quick';
import { reasonFor, releaseReasons } from '../../src/release/reasons';
import { solveRelease } from '../../src/release/solve';
import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { madeProblem, sizes } from './generate';
import { loadHighs } from './highs';
import { othersHeld } from './others-held';

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

describe('why a room opens in its week', () => {
  it.each([1, 2, 3, 4, 5, 6])(
    'season %i: costs are those of solving again by linear program',
    async (seed) => {
      const problem = madeProblem({ rooms: 4, weeks: 8, varieties: 2, weeksToEmpty: 2 }, seed);
      const options = { seed: 1, moves: 500, timeLimitSeconds: 20, gap: 0, loadHighs };
      const { schedule } = await solveRelease(problem, options);
      for (const reason of releaseReasons(problem, schedule).rooms) {
        for (const other of [reason.earlier, reason.later, reason.instead]) {
          if (other?.cost === undefined) continue;
          const again = othersHeld(highs, problem, schedule, reason.room, other.week) ?? 0;
          expect(Math.abs(schedule.value - other.cost - again)).toBeLessThan(
            1e-6 * Math.max(1e5, Math.abs(again)),
          );
          // The schedule is proven best, so no week that breaks nothing can bring more.
          if (other.breaks.length === 0) expect(other.cost).toBeGreaterThan(-0.5);
        }
      }
    },
  );

  const [one, two] = [room('R1', { pinned: 2 }), room('R2', { earliest: 4, latest: 4, bestBefore: 4 })];
  const base = madeProblem({ rooms: 1, weeks: 8, varieties: 1, weeksToEmpty: 1 }, 1);
  /** Two rooms of 100 bins that give ten cartons a bin and are emptied in a week; 1000 cartons wanted in weeks 2 and 4. */
  const season: ReleaseProblem = {
    ...base,
    rooms: [one, two],
    products: [{ variety: 'Gala', packClass: 'first' }],
    demands: [
      {
        id: 'home',
        market: 'home',
        product: 0,
        cartons: [0, 0, 1000, 0, 1000, 0, 0, 0],
        price: 20,
        priceOfShortage: 10,
      },
    ],
    packingBins: [100, 100, 100, 40, 100, 100, 100, 100],
    packedWaitWeeks: 0,
    costOfWaiting: 0,
    processingPrice: 3,
  };
  const schedule = quickRelease(season, { seed: 1, moves: 200 }).schedule;

  it('names the pin, the window and the packhouse, and the demand that would go short', () => {
    expect(schedule.opens).toEqual([2, 4]);
    const [first, second] = releaseReasons(season, schedule).rooms;
    // 1000 cartons processed at 3 and short at 10, in place of sold at 20.
    const short = [{ demand: 0, cartons: 1000, weeks: [2] }];
    expect(first?.earlier).toEqual({ week: 1, cost: 27_000, breaks: [{ kind: 'pin', week: 2 }], short });
    expect(first?.later).toMatchObject({
      breaks: [
        { kind: 'pin', week: 2 },
        { kind: 'packing', bins: 40, until: 3 },
      ],
    });
    expect(first?.later?.cost).toBeUndefined();
    expect(second?.later?.breaks).toEqual([{ kind: 'latest', week: 4 }]);
    expect(second?.earlier?.breaks[0]).toEqual({ kind: 'earliest', week: 4 });
    // Left closed: nothing sold, nothing processed.
    expect(second?.closed).toBe(30_000);
  });

  it('names the limit of rooms that stand open', () => {
    const limited = { ...season, roomsOpenAtOnce: 1, packingBins: season.packingBins.map(() => 500) };
    const rooms = [{ ...one, pinned: null, latest: 7 }, two];
    const { earlier, later } = reasonFor({ ...limited, rooms }, schedule, 0);
    expect([earlier?.breaks, later?.breaks]).toEqual([[], []]);
    const inFour = reasonFor({ ...limited, rooms }, moved(schedule, 0, 3), 0).later;
    expect(inFour?.breaks).toEqual([{ kind: 'rooms-open', week: 4, limit: 1 }]);
  });

  it('of a room left closed: the week in which opening it costs least', () => {
    const third = room('R3', {});
    const closed = {
      ...schedule,
      opens: [2, 4, null],
      packed: [...schedule.packed, season.packingBins.map(() => 0)],
    };
    const [, , reason] = releaseReasons({ ...season, rooms: [one, two, third] }, closed).rooms;
    // Nobody wants its cartons, but processing pays 3 for each of 1000.
    expect(reason?.instead).toEqual({ week: 0, cost: -3000, breaks: [], short: [] });
    // In order behind a room that opens in its last week: what opening it would break is said.
    const behind = { ...third, latest: 4 };
    const ordered: ReleaseProblem = { ...season, rooms: [one, two, behind], opensBefore: [[1, 2]] };
    const [, , last] = releaseReasons(ordered, closed).rooms;
    expect(last?.instead).toMatchObject({ week: 0, cost: -3000 });
    expect(last?.instead?.breaks).toEqual([{ kind: 'order', room: 1, week: 4, before: false }]);
  });

  it('of a shortage: the room whose move cures it, or that none can', () => {
    const more = { ...season, rooms: [one, two, room('R3', { earliest: 5, bestBefore: 7 })] };
    const demands = season.demands.map((demand) => ({
      ...demand,
      cartons: [500, 0, 1000, 0, 1000, 0, 600, 0],
    }));
    const shut = {
      ...schedule,
      opens: [2, 4, null],
      packed: [...schedule.packed, season.packingBins.map(() => 0)],
    };
    const { cures } = releaseReasons({ ...more, demands }, shut);
    expect(cures).toEqual([
      // Only R1 and R2 may open before week 5, and neither in week 0 with its wishes kept.
      { demand: 0, week: 0, short: 500, left: 500, nothingInReach: false },
      {
        demand: 0,
        week: 6,
        short: 600,
        left: 0,
        // 600 cartons at 20 and not short at 10; the other 400 processed at 3.
        move: { room: 2, week: 6, cost: -(600 * 30 + 400 * 3), cartons: 600, inWeek: 600 },
        nothingInReach: false,
      },
    ]);
  });

  it('of a shortage: a move that helps by next to nothing is no cure', () => {
    // R3 may open in time, but its bins give 20 cartons, and 500 are wanted; a smaller share is wanted of week 7.
    const few = { ...room('R3', { earliest: 6, bestBefore: 7 }), bins: 2 };
    const more = { ...season, rooms: [one, two, few] };
    const shut = {
      ...schedule,
      opens: [2, 4, null],
      packed: [...schedule.packed, season.packingBins.map(() => 0)],
    };
    const cures = (wanted: number) => {
      const demands = season.demands.map((demand) => ({
        ...demand,
        cartons: [0, 0, 1000, 0, 1000, 0, wanted, 0],
      }));
      return releaseReasons({ ...more, demands }, shut).cures;
    };
    expect(cures(500)).toEqual([{ demand: 0, week: 6, short: 500, left: 500, nothingInReach: false }]);
    expect(cures(100)).toMatchObject([{ short: 100, left: 80, move: { room: 2, cartons: 20, inWeek: 20 } }]);
  });

  it('of a shortage because the packhouse is full: the bins more it would have to run', () => {
    const packingBins = [100, 100, 60, 40, 100, 100, 100, 100];
    const wide = { ...season, packingBins, rooms: [{ ...one, weeksToEmpty: 2 }, two] };
    const result = quickRelease(wide, { seed: 1, moves: 200 });
    const [cure] = releaseReasons(wide, result.schedule).cures;
    expect(cure).toMatchObject({ week: 2, short: 400, packing: { week: 2, bins: 40, cartons: 400 } });
  });

  it('takes little time and changes nothing, however many rooms', () => {
    const problem = madeProblem({ ...sizes.M, rooms: 48 }, 1);
    const result = quickRelease(problem, { seed: 1, moves: 2000 });
    const before = structuredClone(result.schedule);
    const reasons = releaseReasons(problem, result.schedule);
    expect(reasons.rooms).toHaveLength(48);
    expect(releaseReasons(problem, result.schedule)).toEqual(reasons);
    expect(result.schedule).toEqual(before);
  });
});

function room(name: string, change: Partial<ProblemRoom>): ProblemRoom {
  return {
    fill: `${name}-gala`,
    room: name,
    bins: 100,
    weeksToEmpty: 1,
    earliest: 0,
    latest: 7,
    bestBefore: 7,
    pinned: null,
    cartonsABin: Array.from({ length: 8 }, () => [10]),
    riskCost: Array.from({ length: 8 }, () => 0),
    ...change,
  };
}

/** The schedule with a room's opening and packing in another week. */
function moved(schedule: ReleaseSchedule, index: number, week: number): ReleaseSchedule {
  const packed = schedule.packed.map((row, at) =>
    at === index ? row.map((_, one) => (one === week ? 100 : 0)) : row,
  );
  return { ...schedule, opens: schedule.opens.map((one, at) => (at === index ? week : one)), packed };
}
