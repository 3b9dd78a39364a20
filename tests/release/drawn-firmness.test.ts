import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { type DrawInputs, drawInputs } from '../../src/release/draw-inputs';
import { drawnSales } from '../../src/release/drawn-firmness';
import { DrawnSeason } from '../../src/release/drawn-season';
import { type Draw, plannedDraw } from '../../src/release/draws';
import { releaseProblem } from '../../src/release/problem';
import { quickRelease } from '../../src/release/quick';
import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { files } from './sample-problem';

const weeks = 10;
const nothing = new Array<number>(weeks).fill(0);
const inWeeks = (amounts: Record<number, number>) => nothing.map((_, week) => amounts[week] ?? 0);

const room = (name: string, opens: number): ProblemRoom => ({
  fill: name,
  room: name,
  bins: 10,
  weeksToEmpty: 1,
  earliest: opens,
  latest: opens,
  bestBefore: opens,
  pinned: null,
  cartonsABin: nothing.map(() => [10]),
  riskCost: nothing,
});

/** Two rooms of one product, 100 cartons each: one opened in week 2, one in week 6; a buyer wants them in both weeks. */
const season: ReleaseProblem = {
  firstWeek: 0,
  weeks,
  rooms: [room('R1', 2), room('R2', 6)],
  products: [{ variety: 'Gala', packClass: 'first' }],
  demands: [
    {
      id: 'shop',
      market: 'home',
      product: 0,
      cartons: inWeeks({ 2: 100, 6: 100 }),
      price: 20,
      priceOfShortage: 5,
    },
  ],
  packingBins: nothing.map(() => 100),
  roomsOpenAtOnce: null,
  packedWaitWeeks: 0,
  costOfWaiting: 0,
  processingPrice: 3,
};
const schedule: ReleaseSchedule = {
  opens: [2, 6],
  packed: [inWeeks({ 2: 10 }), inWeeks({ 6: 10 })],
  sold: [inWeeks({ 2: 100, 6: 100 })],
  processed: [nothing],
  value: 4000,
};
/** R1 is firm enough to the Sunday of week 3 and R2 to that of week 8, both picked as the season begins. */
const inputs: DrawInputs = {
  ranges: { crop: 0, storageLife: 0.1, packout: 0, demand: 0 },
  rooms: season.rooms.map(() => ({ estimated: 0, varieties: new Map([['Gala', 1]]) })),
  softens: [
    { demand: 0, product: 0, room: 0, from: 0, until: 4 },
    { demand: 0, product: 0, room: 1, from: 0, until: 9 },
  ],
};
const withLife = (storageLife: readonly number[]): Draw => ({ ...plannedDraw(season), storageLife });
const soldWith = (life: readonly number[]) =>
  Array.from(new DrawnSeason(season, schedule, inputs).outcome(withLife(life)).sold[0] ?? []);

describe('the firmness that buyers ask for, in seasons drawn', () => {
  it('is as planned where fruit keeps as planned', () => {
    expect(soldWith([1, 1])).toEqual(inWeeks({ 2: 100, 6: 100 }));
  });

  it('goes with the storage life of each room: what softens sooner is refused, the other room is not', () => {
    // At seven tenths R1 is too soft from 2.8 weeks on, before the Sunday of week 2; R2 only from 6.3, that of week 6 is 6.86.
    expect(soldWith([0.7, 1])).toEqual(inWeeks({ 6: 100 }));
    expect(soldWith([1, 0.7])).toEqual(inWeeks({ 2: 100 }));
    expect(soldWith([0.7, 0.7])).toEqual(nothing);
    expect(soldWith([0.75, 0.8])).toEqual(inWeeks({ 2: 100, 6: 100 }));
    const refused = new DrawnSeason(season, schedule, inputs).outcome(withLife([0.7, 1]));
    // 100 cartons processed at 3 and short at 5, and 100 sold at 20.
    expect(refused.value).toBeCloseTo(100 * 3 - 100 * 5 + 100 * 20, 6);
  });

  it('parts a room from the product that it shares only where a buyer tells them apart', () => {
    expect(drawnSales(season, schedule, inputs, withLife([1, 1]))?.products).toHaveLength(1);
    const apart = drawnSales(season, schedule, inputs, withLife([0.7, 1]));
    expect(apart?.products).toHaveLength(2);
    expect([apart?.productOf(0, 0), apart?.productOf(1, 0)]).toEqual([0, 1]);
  });

  it('of the sample plan changes nothing if all comes as planned, and never raises what a shorter life sells', () => {
    const plan = readPlan(files);
    const { keeping } = computeSeason(plan, { release: 'none' });
    const problem = releaseProblem(plan, keeping);
    if (!problem) throw new Error('no problem');
    const { schedule: found } = quickRelease(problem, { seed: 1, moves: 2000 });
    const own = drawInputs(plan, keeping, problem);
    expect(own.softens?.length).toBeGreaterThan(0);
    const value = (given: DrawInputs, life: number) => {
      const storageLife = problem.rooms.map(() => life);
      return new DrawnSeason(problem, found, given).outcome({ ...plannedDraw(problem), storageLife }).value;
    };
    expect(value(own, 1)).toBe(value({ ...own, softens: [] }, 1));
    const values = [1.1, 1, 0.9, 0.8, 0.6, 0.4].map((life) => value(own, life));
    values.slice(1).forEach((one, at) => {
      expect(one).toBeLessThanOrEqual((values[at] ?? 0) + 1e-6);
    });
    expect(values.at(-1)).toBeLessThan(values[0] ?? 0);
  });
});
