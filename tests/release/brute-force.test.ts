import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { certifiedBound } from '../../src/release/certificate';
import { checkSchedule } from '../../src/release/checker';
import { findConflicts } from '../../src/release/conflicts';
import { solveRelaxation } from '../../src/release/linear';
import { buildModel } from '../../src/release/model';
import { quickRelease } from '../../src/release/quick';
import { simpleBound } from '../../src/release/simple-bound';
import { solveRelease } from '../../src/release/solve';
import type { ReleaseProblem } from '../../src/release/types';
import { seasonOfEverything, tiny, withWishes } from './everything';
import { madeProblem } from './generate';
import { loadHighs } from './highs';
import { bestValue, choicesOf } from './oracle';

const seeds = Array.from({ length: 24 }, (_, index) => index + 1);

/** Every other season has a tight packhouse, every third a limit of open rooms, every fourth no waiting. */
function tinySeason(seed: number): ReleaseProblem {
  const problem = madeProblem(
    { ...tiny, packhouse: seed % 2 === 0 ? 1.2 : 3, roomsOpenAtOnce: seed % 3 === 0 ? 1 : null },
    seed,
  );
  return withWishes(seed % 4 === 0 ? { ...problem, packedWaitWeeks: 0 } : problem, seed);
}

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

async function expectBest(problem: ReleaseProblem): Promise<void> {
  const best = bestValue(highs, problem);
  const result = await solveRelease(problem, {
    seed: 1,
    moves: 500,
    timeLimitSeconds: 60,
    gap: 0,
    loadHighs: async () => highs,
  });
  const close = 1e-6 * Math.max(1e5, Math.abs(best));
  expect(Math.abs(result.schedule.value - best)).toBeLessThan(close);
  expect(result.bound).toBeGreaterThan(best - close);
  expect(result.provenOptimal).toBe(true);
  expect(checkSchedule(problem, result.schedule, result.unmet)).toEqual([]);
  // Neither limit may ever lie below the best.
  expect(simpleBound(problem)).toBeGreaterThan(best - close);
  const quick = quickRelease(problem, { seed: 1, moves: 500 });
  expect(quick.schedule.value).toBeLessThan(best + close);
  expect(checkSchedule(problem, quick.schedule, quick.unmet)).toEqual([]);
}

describe('tiny seasons, against every choice of opening weeks', () => {
  it.each(seeds)('season %i: the solved schedule is worth as much as the best of all', async (seed) => {
    const problem = tinySeason(seed);
    await expectBest(problem);
  });

  it.each(seeds)('season %i: relaxations limit the best, and their multipliers prove it', (seed) => {
    const problem = tinySeason(seed);
    const best = bestValue(highs, problem);
    const values = [true, false].map((attribution) => {
      const choices = choicesOf(problem).map((weeks) => weeks.filter((week) => week !== null));
      const { linear } = buildModel(problem, {
        weeksOf: (room) => choices[room] ?? [],
        mustOpen: () => false,
        attribution,
      });
      const solved = solveRelaxation(highs, linear, 'corner', 60);
      expect(solved.finished).toBe(true);
      expect(solved.value).toBeGreaterThan(best - 0.01);
      const proven = certifiedBound(linear, solved.multipliers);
      expect(Math.abs(proven - solved.value)).toBeLessThan(1e-6 * Math.max(1e5, Math.abs(solved.value)));
      return solved.value;
    });
    // Attribution only ever brings the relaxation closer.
    expect(values[0]).toBeLessThan((values[1] ?? 0) + 0.01);
  });
});

describe('seasons with something of everything, against every choice of opening weeks', () => {
  // Ten in a test: a season takes a tenth of a second.
  it.each(Array.from({ length: 25 }, (_, index) => 10 * index))(
    'seasons %i and the nine after',
    async (first) => {
      for (let seed = first; seed < first + 10; seed++) {
        const problem = seasonOfEverything(seed);
        // A room that can be packed in no week is a conflict: the choices of the rest are another problem.
        if (findConflicts(problem).messages.length === 0) await expectBest(problem);
      }
    },
  );
});
