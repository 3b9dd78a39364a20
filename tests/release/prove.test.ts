import { describe, expect, it } from 'vitest';
import { Branching } from '../../src/release/branching';
import { choicesOf } from '../../src/release/choices';
import { solveRelaxation } from '../../src/release/linear';
import { type ReleaseModel, seasonModel } from '../../src/release/model';
import { boundOfTree, type ProofTree } from '../../src/release/proof-tree';
import { seededRandom } from '../../src/release/random';
import { solveRelease } from '../../src/release/solve';
import { madeProblem, sizes } from './generate';
import { loadHighs } from './highs';

/** Enough cases for a small season, whatever the machine: nothing here depends on the clock. */
const options = { seed: 1, moves: 20_000, timeLimitSeconds: 1e4, gap: 0, loadHighs };

function allOf(model: ReleaseModel) {
  const place = Int32Array.from({ length: model.linear.numCols }, (_, column) => column);
  return choicesOf(model, model.linear, place);
}

describe('cases of a whole season', () => {
  it.each([1, 2, 3, 4])('prove 8 rooms of season %i optimal, and prove it again', async (seed) => {
    const problem = madeProblem({ rooms: 8, weeks: 20, varieties: 2, weeksToEmpty: 2 }, seed);
    const { provenOptimal, gap, boundRestsOn } = await solveRelease(problem, options);
    expect(provenOptimal).toBe(true);
    expect(gap).toBeLessThan(1e-6);
    expect(boundRestsOn).toMatch(/^cases that leave no schedule out.*without the solver$/);
  });

  it('lower the bound case by case, never below what a schedule brings', async () => {
    const problem = madeProblem({ rooms: 6, weeks: 16, varieties: 2, weeksToEmpty: 2 }, 5);
    const { schedule } = await solveRelease(problem, options);
    const model = seasonModel(problem, [], true);
    const { choices, rooms } = allOf(model);
    const bins = rooms.map((room) => problem.rooms[room]?.bins ?? 0);
    const branching = new Branching(await loadHighs(), model.linear, choices, bins);
    const bounds = [branching.bound];
    while (!branching.done && bounds.length < 200) {
      branching.step();
      bounds.push(branching.bound);
    }
    for (const [index, bound] of bounds.entries()) {
      expect(bound).toBeLessThanOrEqual(bounds[index - 1] ?? bound);
      expect(bound).toBeGreaterThan(schedule.value - 1e-3);
    }
    // The solver is not asked: the tree and the model alone give the same bound.
    const { proof } = branching;
    branching.dispose();
    expect(boundOfTree(model.linear, choices, proof)).toBeCloseTo(bounds.at(-1) ?? 0, 3);
    expect(bounds.at(-1)).toBeCloseTo(schedule.value, -1);
  });

  it('stop at the number of cases, with the same bound each time', async () => {
    const problem = madeProblem(sizes.S, 2);
    const once = await solveRelease(problem, { ...options, mostCases: 20 });
    expect(await solveRelease(problem, { ...options, mostCases: 20 })).toEqual(once);
    expect(once.provenOptimal).toBe(false);
    expect(once.gap).toBeGreaterThan(0);
  });
});

describe('a limit in seconds', () => {
  it('is work that is counted: the proof ends at the same case each time, and says so', async () => {
    const problem = madeProblem(sizes.S, 2);
    const limited = { ...options, timeLimitSeconds: 1 };
    const once = await solveRelease(problem, limited);
    expect(await solveRelease(problem, limited)).toEqual(once);
    expect(once.boundRestsOn).toMatch(/the time limit ended the proof$/);
    expect(once.provenOptimal).toBe(false);
    // Twice the work takes more cases apart.
    const more = await solveRelease(problem, { ...options, timeLimitSeconds: 2 });
    expect(more.bound).toBeLessThan(once.bound);
  });

  it('is enough for as many steps of the solver as it pays, and no more', async () => {
    const highs = await loadHighs();
    const { linear } = seasonModel(madeProblem(sizes.S, 1), [], true);
    const whole = solveRelaxation(highs, linear, 'corner', 100);
    expect(whole.finished).toBe(true);
    const half = solveRelaxation(highs, linear, 'corner', whole.seconds / 2);
    expect(half.finished).toBe(false);
    expect(half.seconds).toBeLessThan(0.55 * whole.seconds);
    expect(half.seconds).toBeGreaterThan(0.45 * whole.seconds);
  });
});

describe('a tree of cases', () => {
  const problem = madeProblem({ rooms: 4, weeks: 12, varieties: 2, weeksToEmpty: 2 }, 3);
  const model = seasonModel(problem, [], true);
  const { choices } = allOf(model);
  const none: ProofTree = { kind: 'leaf', multipliers: new Float64Array(0) };

  it('is true for any multipliers and any cases at all', async () => {
    const { schedule } = await solveRelease(problem, options);
    const random = seededRandom(7);
    const grown = (depth: number): ProofTree => {
      const choice = Math.floor(random() * choices.length);
      if (depth === 0)
        return {
          kind: 'leaf',
          multipliers: Float64Array.from({ length: model.linear.numRows }, () => 40 * (random() - 0.5)),
        };
      if (random() < 0.3) return { kind: 'open', choice, none: grown(depth - 1), one: grown(depth - 1) };
      const at = Math.floor(random() * (choices[choice]?.columns.length ?? 0));
      return { kind: 'weeks', choice, at, before: grown(depth - 1), after: grown(depth - 1) };
    };
    for (let round = 0; round < 30; round++)
      expect(boundOfTree(model.linear, choices, grown(round % 4))).toBeGreaterThan(schedule.value);
  });

  it('refuses columns of which more than one may be 1', () => {
    const [one, other] = choices;
    const both = { columns: [...(one?.columns ?? []), ...(other?.columns ?? [])], row: one?.row ?? null };
    expect(() => boundOfTree(model.linear, [both], none)).toThrow(/no choice/);
    const withoutRow = { columns: one?.columns ?? [], row: null };
    expect(() => boundOfTree(model.linear, [withoutRow], none)).toThrow(/no choice/);
    const shared = { columns: [...model.linear.indices.subarray(0, 2)], row: 0 };
    expect(() => boundOfTree(model.linear, [shared], none)).toThrow(/no choice/);
  });
});
