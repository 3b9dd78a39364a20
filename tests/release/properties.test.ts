import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { seededRandom } from '../../src/release/random';
import { solveRelease } from '../../src/release/solve';
import type { ReleaseProblem } from '../../src/release/types';
import { withEvenWork, withPartWeeks, withProductsApart } from './features';
import { type Made, madeProblem } from './generate';
import { loadHighs } from './highs';

const tiny: Made = { rooms: 3, weeks: 6, varieties: 2, weeksToEmpty: 2 };
const seeds = Array.from({ length: 8 }, (_, index) => index + 31);

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

const solve = (problem: ReleaseProblem) =>
  solveRelease(problem, { seed: 1, moves: 300, timeLimitSeconds: 20, gap: 0, loadHighs: async () => highs });

const close = (value: number) => 1e-6 * Math.max(1e5, Math.abs(value));

/** Money that customers pay, and what is saved of shortage: what more demand can only add to. */
function gained(problem: ReleaseProblem, value: number): number {
  const nothing = problem.demands.reduce(
    (sum, one) => sum + one.priceOfShortage * one.cartons.reduce((all, cartons) => all + cartons, 0),
    0,
  );
  return value + nothing;
}

describe('of the best schedules of tiny seasons', () => {
  it.each(seeds)('season %i: more demand never lowers what deliveries bring', async (seed) => {
    const problem = madeProblem(tiny, seed);
    const more = {
      ...problem,
      demands: problem.demands.map((one, index) => ({
        ...one,
        cartons: one.cartons.map(
          (cartons, week) => cartons + (week === seed % 6 || index === seed % 4 ? 150 : 0),
        ),
      })),
    };
    const [before, after] = [await solve(problem), await solve(more)];
    const least = gained(problem, before.schedule.value);
    expect(gained(more, after.schedule.value)).toBeGreaterThan(least - close(least));
  });

  it.each(seeds)('season %i: a wider window never lowers the value', async (seed) => {
    const problem = madeProblem(tiny, seed);
    const rooms = problem.rooms.map((room, index) =>
      index === seed % 3
        ? { ...room, earliest: Math.max(0, room.earliest - 1), latest: Math.min(5, room.latest + 1) }
        : room,
    );
    const [before, after] = [await solve(problem), await solve({ ...problem, rooms })];
    expect(after.schedule.value).toBeGreaterThan(before.schedule.value - close(before.schedule.value));
  });

  it.each(seeds)('season %i: an order of opening never raises the value, and is kept', async (seed) => {
    const problem = madeProblem(tiny, seed);
    const ordered: ReleaseProblem = { ...problem, opensBefore: [[seed % 3, (seed + 1) % 3]] };
    const [free, bound] = [await solve(problem), await solve(ordered)];
    expect(bound.schedule.value).toBeLessThan(free.schedule.value + close(free.schedule.value));
    expect(checkSchedule(ordered, bound.schedule, bound.unmet)).toEqual([]);
  });

  it.each(seeds)('season %i: a pinned week is kept, or reported and the room left closed', async (seed) => {
    const problem = madeProblem({ ...tiny, packhouse: 1.3 }, seed);
    const week = seed % 6;
    const rooms = problem.rooms.map((room, index) => (index < 2 ? { ...room, pinned: week } : room));
    const { schedule, unmet, conflicts } = await solve({ ...problem, rooms });
    for (const room of [0, 1]) {
      if (unmet?.includes(room)) expect(schedule.opens[room]).toBeNull();
      else expect(schedule.opens[room]).toBe(week);
    }
    expect(conflicts.length > 0).toBe((unmet?.length ?? 0) > 0);
    for (const room of unmet ?? []) expect(conflicts.join(' ')).toContain(problem.rooms[room]?.room);
  });

  it.each(seeds)('season %i: the order of rooms changes nothing, wishes included', async (seed) => {
    const made = madeProblem(tiny, seed);
    const published = { week: 3, price: 400 };
    const problem: ReleaseProblem = {
      ...made,
      opensBefore: [[0, 2]],
      rooms: made.rooms.map((room) => ({ ...room, published })),
    };
    const turned: ReleaseProblem = { ...problem, opensBefore: [[2, 0]], rooms: [...problem.rooms].reverse() };
    const [one, other] = [await solve(problem), await solve(turned)];
    expect(other.schedule.value).toBe(one.schedule.value);
    expect([...other.schedule.opens].reverse()).toEqual(one.schedule.opens);
    expect(other.conflicts).toEqual(one.conflicts);
  });

  it.each(seeds)(
    'season %i: with products that not every demand takes, the order of everything changes nothing',
    async (seed) => {
      const problem = withEverything(seed);
      const count = problem.products.length;
      const turn = (product: number) => count - 1 - product;
      const turned: ReleaseProblem = {
        ...problem,
        rooms: [...problem.rooms].reverse().map((room) => ({
          ...room,
          cartonsABin: room.cartonsABin.map((cartons) => [...cartons].reverse()),
        })),
        products: [...problem.products].reverse(),
        demands: [...problem.demands].reverse().map((demand) => ({
          ...demand,
          product: turn(demand.product),
          ...(demand.from && {
            from: [...demand.from].reverse().map((source) => ({ ...source, product: turn(source.product) })),
          }),
        })),
      };
      const [one, other] = [await solve(problem), await solve(turned)];
      expect(other.schedule.value).toBe(one.schedule.value);
      expect([...other.schedule.opens].reverse()).toEqual(one.schedule.opens);
      expect([...other.schedule.sold].reverse()).toEqual(one.schedule.sold);
      expect([...(other.schedule.soldFrom ?? [])].reverse().map((sources) => [...sources].reverse())).toEqual(
        one.schedule.soldFrom,
      );
      expect(checkSchedule(turned, other.schedule, other.unmet)).toEqual([]);
    },
  );

  it.each(seeds)('season %i: what a demand accepts for longer never lowers the value', async (seed) => {
    const problem = withEverything(seed);
    const longer: ReleaseProblem = {
      ...problem,
      demands: problem.demands.map((demand) => ({
        ...demand,
        ...(demand.from && {
          from: demand.from.map((source) => ({ ...source, until: Math.min(5, source.until + 1) })),
        }),
      })),
    };
    const [before, after] = [await solve(problem), await solve(longer)];
    expect(after.schedule.value).toBeGreaterThan(before.schedule.value - close(before.schedule.value));
  });

  it.each(seeds)('season %i: days fewer, or uneven work at a price, never raise the value', async (seed) => {
    const made = madeProblem(tiny, seed);
    const random = seededRandom(seed);
    const free = await solve(made);
    for (const harder of [withPartWeeks(made, random), withEvenWork(made, 3)]) {
      const { schedule } = await solve(harder);
      expect(schedule.value).toBeLessThan(free.schedule.value + close(free.schedule.value));
    }
  });
});

function withEverything(seed: number): ReleaseProblem {
  const random = seededRandom(seed);
  return withEvenWork(withPartWeeks(withProductsApart(madeProblem(tiny, seed), random), random), 0.5);
}
