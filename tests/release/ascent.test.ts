import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { ascend } from '../../src/release/ascent';
import { findConflicts } from '../../src/release/conflicts';
import { boundAtPrices } from '../../src/release/price-certificate';
import { seededRandom } from '../../src/release/random';
import { noPrices, pricesIn } from '../../src/release/shared-prices';
import { simpleBound } from '../../src/release/simple-bound';
import { seasonOfEverything } from './everything';
import { madeProblem, sizes } from './generate';
import { loadHighs } from './highs';
import { bestValue } from './oracle';

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

describe('prices of what rooms share, on seasons with something of everything', () => {
  it.each(Array.from({ length: 12 }, (_, index) => 10 * index))(
    'limit every schedule at any prices, seasons %i and the nine after',
    (first) => {
      for (let seed = first; seed < first + 10; seed++) {
        const problem = seasonOfEverything(seed);
        if (findConflicts(problem).messages.length > 0) continue;
        const best = bestValue(highs, problem);
        const close = 1e-6 * Math.max(1e5, Math.abs(best));
        const { limit, prices } = ascend(problem, [], { turns: 60, known: best });
        const bound = boundAtPrices(problem, [], prices);
        expect(bound).toBeGreaterThan(best - close);
        // Worked out anew the limit is no higher: it tells a few things apart that the ascent takes together.
        expect(bound).toBeLessThan(limit + close);
        const random = seededRandom(seed);
        for (const most of [0.1, 3, 40]) {
          const any = noPrices(problem).map(() => most * (random() - 0.2));
          expect(boundAtPrices(problem, [], pricesIn(any, problem.weeks))).toBeGreaterThan(best - close);
        }
      }
    },
  );

  it('count for nothing where they are no prices', () => {
    const problem = madeProblem(sizes.S, 1);
    const none = noPrices(problem);
    const free = boundAtPrices(problem, [], pricesIn(none, problem.weeks));
    const wrong = none.map((_, at) => [Number.NaN, -5, Number.POSITIVE_INFINITY][at % 3] ?? 0);
    expect(boundAtPrices(problem, [], pricesIn(wrong, problem.weeks))).toBe(free);
  });
});

describe('the ascent', () => {
  it.each([
    [0.85, 1],
    [0.85, 2],
    [1.15, 1],
    [1.15, 2],
  ])('at supply %f of season %i comes within four per cent of a schedule in 300 turns', (ratio, seed) => {
    const problem = madeProblem({ ...sizes.M, demand: 1 / ratio }, seed);
    const known = KNOWN[`${ratio} ${seed}`] ?? 0;
    const bounds = [50, 300].map((turns) => {
      const { limit, prices } = ascend(problem, [], { turns, known });
      const bound = boundAtPrices(problem, [], prices);
      // Two ways of working out the same, which share no code.
      expect(Math.abs(bound / limit - 1)).toBeLessThan(1e-7);
      return bound;
    });
    expect(bounds[0]).toBeLessThan(simpleBound(problem));
    expect(bounds[1]).toBeLessThan((bounds[0] ?? 0) * 0.995);
    expect(bounds[1]).toBeGreaterThan(known);
    expect(1 - known / (bounds[1] ?? 0)).toBeLessThan(0.04);
  });

  it('ends where prices can prove no less, and is the same each time', () => {
    const problem = madeProblem(sizes.S, 3);
    const long = ascend(problem, [], { turns: 5000, known: 0 });
    expect(ascend(problem, [], { turns: 5000, known: 0 })).toEqual(long);
    expect(ascend(problem, [], { turns: 50_000, known: 0 }).limit).toBe(long.limit);
  });

  it('says for each room how likely its weeks are, none outside its window', () => {
    const problem = madeProblem(sizes.S, 4);
    const { openings } = ascend(problem, [2], { turns: 200, known: 0 });
    expect(openings.some(({ room }) => room === 2)).toBe(false);
    for (const [index, { earliest, latest }] of problem.rooms.entries()) {
      const its = openings.filter(({ room }) => room === index);
      expect(its.reduce((sum, { share }) => sum + share, 0)).toBeLessThanOrEqual(1 + 1e-9);
      for (const { week } of its) expect(week >= earliest && week <= latest).toBe(true);
    }
  });
});

/** Values of schedules found by long searches. */
const KNOWN: Readonly<Record<string, number>> = {
  '0.85 1': 12_732_983,
  '0.85 2': 11_459_963,
  '1.15 1': 11_651_235,
  '1.15 2': 11_134_600,
};
