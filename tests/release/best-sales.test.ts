import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { PoolSales } from '../../src/release/best-sales';
import { quickRelease } from '../../src/release/quick';
import { seededRandom } from '../../src/release/random';
import { cartonsPacked } from '../../src/release/settle';
import { poolsOf } from '../../src/release/sources';
import { Standing } from '../../src/release/standing';
import type { ReleaseProblem } from '../../src/release/types';
import { withEvenWork, withPartWeeks, withProductsApart } from './features';
import { madeProblem } from './generate';
import { loadHighs } from './highs';
import { valueAt } from './oracle';
import { othersHeld } from './others-held';

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

/** One room a week that gives given cartons of one product, so that the linear program has nothing to choose but sales. */
function givenCartons(problem: ReleaseProblem, supply: readonly number[]): ReleaseProblem {
  return {
    ...problem,
    rooms: supply.map((cartons, week) => ({
      ...(problem.rooms[0] as ReleaseProblem['rooms'][number]),
      bins: Math.max(cartons, 1e-3),
      weeksToEmpty: 1,
      pinned: week,
      riskCost: supply.map(() => 0),
      cartonsABin: supply.map(() => problem.products.map((_, product) => (product === 0 ? 1 : 0))),
    })),
    packingBins: supply.map(() => 1e9),
  };
}

describe('the best sales of a product', () => {
  it.each(Array.from({ length: 40 }, (_, index) => index + 1))(
    'season %i: are worth what the linear program finds, whatever waiting costs',
    (seed) => {
      const random = seededRandom(seed);
      const made = madeProblem({ rooms: 2, weeks: 10, varieties: 1, weeksToEmpty: 1 }, seed);
      const problem: ReleaseProblem = {
        ...made,
        packedWaitWeeks: seed % 4,
        costOfWaiting: [0, 0.3, 2, 9][seed % 4 === 3 ? Math.floor(seed / 4) % 4 : seed % 3] ?? 0,
      };
      const wanted = problem.demands.flatMap((one) => (one.product === 0 ? one.cartons : []));
      const mean = wanted.reduce((sum, cartons) => sum + cartons, 0) / 10;
      const supply = Array.from({ length: 10 }, () => (random() < 0.4 ? 0 : Math.round(random() * 3 * mean)));
      const best =
        valueAt(
          highs,
          givenCartons(problem, supply),
          supply.map((_, week) => week),
        ) ?? 0;
      const cost = problem.demands.reduce(
        (sum, one) => sum + one.priceOfShortage * one.cartons.reduce((all, cartons) => all + cartons, 0),
        0,
      );
      const total = supply.reduce((sum, cartons) => sum + cartons, 0);
      const value = new PoolSales(problem, [0]).sell([supply]) + problem.processingPrice * total - cost;
      expect(Math.abs(value - best)).toBeLessThan(1e-6 * Math.max(1e4, Math.abs(best)) + 0.5);
    },
  );
});

describe('the best sales of several products that fill the same demands', () => {
  it.each(Array.from({ length: 40 }, (_, index) => index + 1))(
    'season %i: are worth what the linear program finds',
    (seed) => {
      const random = seededRandom(seed);
      const made = withProductsApart(
        madeProblem({ rooms: 3, weeks: 8, varieties: 1, weeksToEmpty: 1 }, seed),
        random,
      );
      const problem = { ...made, packedWaitWeeks: seed % 4, costOfWaiting: [0, 0.3, 2][seed % 3] ?? 0 };
      const pools = poolsOf(problem);
      const { schedule } = quickRelease(problem, { seed: 1, moves: 50 });
      const supply = cartonsPacked(problem, schedule.packed);
      const held = pools.reduce((sum, pool) => {
        const sales = new PoolSales(problem, pool);
        const rows = pool.map((product) => supply[product] ?? []);
        const gain = sales.hold(rows);
        // Sold again from what is held with one batch doubled and back again, it comes out the same.
        sales.sell(
          rows.map((row, kind) => row.map((one, week) => (kind === 0 && week === seed % 8 ? 2 * one : one))),
        );
        expect(sales.sell(rows)).toBeCloseTo(gain, 4);
        return sum + gain;
      }, 0);
      const cost = problem.demands.reduce(
        (sum, one) => sum + one.priceOfShortage * one.cartons.reduce((all, cartons) => all + cartons, 0),
        0,
      );
      const all = supply.reduce((sum, row) => sum + row.reduce((more, one) => more + one, 0), 0);
      const risk = problem.rooms.reduce(
        (sum, one, room) => sum + (one.riskCost[schedule.opens[room] ?? -1] ?? 0),
        0,
      );
      const best = valueAt(highs, { ...problem, rooms: problem.rooms }, schedule.opens) ?? 0;
      const value = held + problem.processingPrice * all - cost - risk;
      expect(value).toBeGreaterThan(schedule.value - 1);
      expect(Math.abs(value - best)).toBeLessThan(1e-6 * Math.max(1e4, Math.abs(best)) + 0.5);
      expect(pools.some((pool) => pool.length > 1)).toBe(true);
    },
  );
});

describe('what a schedule would be worth with one room elsewhere', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8])(
    'season %i: is what solving again says, for every room and week',
    (seed) => {
      const made = madeProblem(
        {
          rooms: 4,
          weeks: 8,
          varieties: 2,
          weeksToEmpty: 1 + (seed % 2),
          packhouse: seed % 3 === 0 ? 1.4 : 3,
        },
        seed,
      );
      const random = seededRandom(seed + 100);
      const apart = seed % 2 === 0 ? withProductsApart(made, random) : made;
      const problem = seed > 4 ? withEvenWork(withPartWeeks(apart, random), seed % 2 ? 2 : 0) : apart;
      const { schedule } = quickRelease(problem, { seed: 1, moves: 300 });
      const standing = new Standing(problem, schedule);
      problem.rooms.forEach((one, room) => {
        const now = othersHeld(highs, problem, schedule, room, schedule.opens[room] ?? null) ?? 0;
        const itself = standing.whatIf(room, schedule.opens[room] ?? null);
        const base = now + (itself?.cost ?? 0);
        for (const week of [null, ...Array.from({ length: 8 }, (_, at) => at)]) {
          const best = othersHeld(highs, problem, schedule, room, week);
          const tried = standing.whatIf(room, week);
          expect(tried === undefined).toBe(best === undefined);
          if (!tried || best === undefined) continue;
          expect(Math.abs(base - tried.cost - best), `${one.fill} in ${week}`).toBeLessThan(
            1e-6 * Math.max(1e5, Math.abs(best)),
          );
        }
      });
    },
  );
});
