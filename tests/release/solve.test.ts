import { describe, expect, it } from 'vitest';
import { certifiedBound } from '../../src/release/certificate';
import { checkSchedule } from '../../src/release/checker';
import { solveRelaxation } from '../../src/release/linear';
import { seasonModel } from '../../src/release/model';
import { quickRelease } from '../../src/release/quick';
import { seededRandom } from '../../src/release/random';
import { type SolveOptions, solveRelease } from '../../src/release/solve';
import type { ReleaseProgress, ReleaseResult } from '../../src/release/types';
import { madeProblem, sizes } from './generate';
import { loadHighs } from './highs';

/** Nothing here depends on the clock: moves are counted, and the solver's time is ample. */
const options: SolveOptions = { seed: 1, moves: 20_000, timeLimitSeconds: 100, gap: 1, loadHighs };

describe('a solved schedule', () => {
  it('of 60 rooms is within two and a half per cent of a bound proved again without the solver', async () => {
    const problem = madeProblem({ ...sizes.M, weeksToEmpty: 3 }, 1);
    const result = await solveRelease(problem, { ...options, moves: 200_000, gap: 0.02 });
    expect(checkSchedule(problem, result.schedule, result.unmet)).toEqual([]);
    expect(result.gap).toBeLessThan(0.025);
    expect(result.boundRestsOn).toContain('without the solver');
    expect(result.provenOptimal).toBe(false);
    expect(quickRelease(problem, options).schedule.value).toBeLessThan(result.bound);
  });

  it.each([
    [1, 0.85],
    [2, 1.15],
    [5, 0.85],
  ])(
    'of 60 rooms, season %i with %d of demand, is within three per cent after the work of a second',
    async (seed, ratio) => {
      const problem = madeProblem({ ...sizes.M, demand: 1 / ratio }, seed);
      const result = await solveRelease(problem, {
        ...options,
        moves: 60_000,
        timeLimitSeconds: 0.4,
        gap: 0.03,
      });
      expect(checkSchedule(problem, result.schedule, result.unmet)).toEqual([]);
      expect(result.gap).toBeLessThan(0.03);
    },
  );

  it('of 200 rooms is within one and a half per cent', async () => {
    const problem = madeProblem({ ...sizes.L, weeksToEmpty: 3 }, 1);
    const result = await solveRelease(problem, { ...options, moves: 100_000, gap: 0.02 });
    expect(checkSchedule(problem, result.schedule, result.unmet)).toEqual([]);
    expect(result.gap).toBeLessThan(0.015);
  });

  it('of 12 rooms is within two per cent of its bound, and says what the bound rests on', async () => {
    const problem = madeProblem({ ...sizes.S, weeksToEmpty: 2 }, 2);
    const result = await solveRelease(problem, { ...options, moves: 50_000, gap: 0.02 });
    expect(checkSchedule(problem, result.schedule)).toEqual([]);
    expect(result.gap).toBeLessThan(0.02);
    expect(result.provenOptimal).toBe(false);
  });

  it('of 5 rooms is proven optimal', async () => {
    const problem = madeProblem({ rooms: 5, weeks: 16, varieties: 2, weeksToEmpty: 2 }, 4);
    const result = await solveRelease(problem, { ...options, gap: 0 });
    expect(result.provenOptimal).toBe(true);
    expect(result.gap).toBeLessThan(1e-6);
  });

  it('is the same for the same seed, whatever the order of rooms', async () => {
    const problem = madeProblem(sizes.S, 3);
    const once = await solveRelease(problem, options);
    expect(await solveRelease(problem, options)).toEqual(once);
    const turned = await solveRelease({ ...problem, rooms: [...problem.rooms].reverse() }, options);
    expect(turned.schedule.value).toBe(once.schedule.value);
    expect(turned.schedule.opens).toEqual([...once.schedule.opens].reverse());
  });

  it('is worth no less, and its bound no lower, where more is wanted at no penalty', async () => {
    const free = (factor: number) => {
      const problem = madeProblem({ rooms: 4, weeks: 12, varieties: 2, weeksToEmpty: 2 }, 6);
      const demands = problem.demands.map((demand) => ({
        ...demand,
        priceOfShortage: 0,
        cartons: demand.cartons.map((cartons) => cartons * factor),
      }));
      return solveRelease({ ...problem, demands }, { ...options, gap: 0 });
    };
    const [less, more] = [await free(1), await free(1.3)];
    expect(less.provenOptimal && more.provenOptimal).toBe(true);
    expect(more.schedule.value).toBeGreaterThan(less.schedule.value);
    expect(more.bound).toBeGreaterThan(less.bound);
  });

  it('keeps pins, and leaves closed what cannot keep its own', async () => {
    const plain = madeProblem(sizes.S, 8);
    const pins = new Map([
      [1, plain.rooms[1]?.earliest ?? 0],
      [4, (plain.rooms[4]?.latest ?? 0) + 1],
    ]);
    const problem = {
      ...plain,
      rooms: plain.rooms.map((room, index) => ({ ...room, pinned: pins.get(index) ?? null })),
    };
    const { schedule, conflicts, unmet } = await solveRelease(problem, options);
    expect(schedule.opens[1]).toBe(pins.get(1));
    expect(schedule.opens[4]).toBeNull();
    expect(unmet).toEqual([4]);
    expect(conflicts).toHaveLength(1);
    expect(checkSchedule(problem, schedule, unmet)).toEqual([]);
  });

  it('reports its stages in order, and schedules that only get better', async () => {
    const stages: ReleaseProgress['stage'][] = [];
    const better: ReleaseResult[] = [];
    await solveRelease(madeProblem(sizes.S, 1), {
      ...options,
      gap: 0.02,
      onProgress: ({ stage }) => stages.at(-1) !== stage && stages.push(stage),
      onIncumbent: (result) => better.push(result),
    });
    expect(stages).toEqual(['searching', 'polishing', 'bounding', 'checking']);
    expect(better.length).toBeGreaterThan(2);
    for (const [index, result] of better.entries()) {
      expect(result.schedule.value).toBeGreaterThanOrEqual(
        better[index - 1]?.schedule.value ?? Number.NEGATIVE_INFINITY,
      );
      expect(result.bound).toBeLessThanOrEqual(better[index - 1]?.bound ?? Number.POSITIVE_INFINITY);
    }
  });

  it('does without the solver where a wide gap is enough and the prices prove it', async () => {
    const stages = new Set<ReleaseProgress['stage']>();
    const problem = madeProblem(sizes.S, 1);
    const result = await solveRelease(problem, {
      ...options,
      gap: 0.05,
      onProgress: ({ stage }) => stages.add(stage),
      loadHighs: () => Promise.reject(new Error('the solver was asked for')),
    });
    expect([...stages]).toEqual(['searching', 'checking']);
    expect(result.gap).toBeLessThan(0.05);
    expect(checkSchedule(problem, result.schedule, result.unmet)).toEqual([]);
  });

  it('stops when asked, with what it has', async () => {
    const problem = madeProblem(sizes.S, 1);
    const result = await solveRelease(problem, { ...options, moves: 1e9, shouldStop: () => true });
    expect(checkSchedule(problem, result.schedule)).toEqual([]);
    expect(result.boundRestsOn).toContain('as if the packhouse had no limit');
  });
});

describe('the certificate', () => {
  const problem = madeProblem({ rooms: 6, weeks: 14, varieties: 2, weeksToEmpty: 2 }, 9);

  it.each([true, false])(
    'proves the value of the relaxation, from a vertex or an interior point (attribution %s)',
    async (attribution) => {
      const highs = await loadHighs();
      const { linear } = seasonModel(problem, [], attribution);
      const corner = solveRelaxation(highs, linear, 'corner', 60);
      const interior = solveRelaxation(highs, linear, 'interior', 60);
      for (const solved of [corner, interior]) {
        const bound = certifiedBound(linear, solved.multipliers);
        expect(bound).toBeGreaterThanOrEqual(corner.value - 1e-3);
        expect(bound).toBeLessThan(corner.value * (1 + 1e-6));
      }
    },
  );

  it('is a true limit for any multipliers at all', async () => {
    const highs = await loadHighs();
    const { linear } = seasonModel(problem, [], true);
    const { value } = solveRelaxation(highs, linear, 'corner', 60);
    const random = seededRandom(1);
    for (let round = 0; round < 50; round++) {
      const multipliers = Float64Array.from(
        { length: linear.numRows },
        () => (random() - 0.5) * 10 ** (4 * random()),
      );
      expect(certifiedBound(linear, multipliers)).toBeGreaterThan(value);
    }
    expect(certifiedBound(linear, [])).toBeGreaterThan(value);
    expect(certifiedBound(linear, new Float64Array(linear.numRows).fill(Number.NaN))).toBeGreaterThan(value);
  });
});
