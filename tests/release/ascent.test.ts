import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { ascend } from '../../src/release/ascent';
import { findConflicts } from '../../src/release/conflicts';
import { marketPrices } from '../../src/release/market-prices';
import { boundAtPrices } from '../../src/release/price-certificate';
import { pricedSeason } from '../../src/release/priced-season';
import { seededRandom } from '../../src/release/random';
import { RoomsAtPrices } from '../../src/release/room-at-prices';
import { noPrices, pricesIn, sharedOf } from '../../src/release/shared-prices';
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

describe('rooms at prices', () => {
  it('bring the same whether they have been asked at other prices before or not', () => {
    for (const seed of [3, 17, 42, 58]) {
      const problem = seasonOfEverything(seed);
      const [season, shared] = [pricedSeason(problem), sharedOf(problem)];
      const before = new RoomsAtPrices(season, shared);
      const random = seededRandom(seed);
      const flat = marketPrices(problem);
      for (let turn = 0; turn < 60; turn++) {
        // Small steps, so that most ways are not asked anew, and now and then a large one.
        const most = turn % 20 === 19 ? 20 : 0.2;
        flat.forEach((price, at) => {
          flat[at] = Math.max(0, price + most * (random() - 0.5));
        });
        const [taken, takenAgain] = [noPrices(problem), noPrices(problem)];
        const prices = pricesIn(flat, problem.weeks);
        const value = before.best(prices, pricesIn(taken, problem.weeks));
        const again = new RoomsAtPrices(season, shared).best(prices, pricesIn(takenAgain, problem.weeks));
        expect(value).toBeCloseTo(again, 4);
      }
    }
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
    expect(bounds[1]).toBeLessThan((bounds[0] ?? 0) * 0.999);
    // It starts from prices that are fair already.
    expect(bounds[0]).toBeLessThan((bounds[1] ?? 0) * 1.025);
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
