import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { curesOf } from '../../src/release/cures';
import { quickRelease } from '../../src/release/quick';
import { releaseReasons } from '../../src/release/reasons';
import { Standing } from '../../src/release/standing';
import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { cureJson } from '../../src/report/reason-json';
import { madeProblem } from './generate';
import { loadHighs } from './highs';
import { othersHeld } from './others-held';

let highs: Highs;
beforeAll(async () => {
  highs = await loadHighs();
});

const weeks = 6;
const nothing = Array.from({ length: weeks }, () => 0);
const inWeeks = (amounts: Readonly<Record<number, number>>) => nothing.map((_, week) => amounts[week] ?? 0);

/** A room of 100 bins of one product, ten cartons a bin, that is emptied in a week. */
function room(name: string, product: number, change: Partial<ProblemRoom>): ProblemRoom {
  return {
    fill: `${name}-fill`,
    room: name,
    bins: 100,
    weeksToEmpty: 1,
    earliest: 0,
    latest: weeks - 1,
    bestBefore: weeks - 1,
    pinned: null,
    cartonsABin: nothing.map(() => [0, 1].map((one) => (one === product ? 10 : 0))),
    riskCost: nothing,
    ...change,
  };
}

/** R1 would meet the Gala of week 1, but R2 fills the packhouse then; it could as well be packed in week 2. */
const season: ReleaseProblem = {
  ...madeProblem({ rooms: 1, weeks, varieties: 1, weeksToEmpty: 1 }, 1),
  rooms: [room('R1', 0, { earliest: 1, latest: 4 }), room('R2', 1, { earliest: 1, latest: 2 })],
  products: [
    { variety: 'Gala', packClass: 'first' },
    { variety: 'Braeburn', packClass: 'first' },
  ],
  demands: [
    { id: 'gala', market: 'home', product: 0, cartons: inWeeks({ 1: 1000 }), price: 20, priceOfShortage: 10 },
    {
      id: 'braeburn',
      market: 'home',
      product: 1,
      cartons: inWeeks({ 2: 500 }),
      price: 16,
      priceOfShortage: 0,
    },
  ],
  packingBins: nothing.map(() => 100),
  packedWaitWeeks: 1,
  costOfWaiting: 1,
  processingPrice: 3,
};
const packedIn = (week: number) => inWeeks({ [week]: 100 });
const schedule: ReleaseSchedule = {
  opens: [4, 1],
  packed: [packedIn(4), packedIn(1)],
  sold: [nothing, inWeeks({ 2: 500 })],
  processed: [inWeeks({ 4: 1000 }), inWeeks({ 1: 500 })],
  value: 1000 * 3 - 1000 * 10 + 500 * 16 + 500 * 3 - 500,
};

describe('a shortage that no room cures alone', () => {
  it('is cured by two that move together, at what both come to', () => {
    expect(checkSchedule(season, schedule)).toEqual([]);
    const [cure] = releaseReasons(season, schedule).cures;
    // 1000 cartons at 20 and not short at 10 instead of processed at 3; and 500 of R2 that need not wait.
    expect(cure).toMatchObject({
      demand: 0,
      week: 1,
      short: 1000,
      move: { room: 0, week: 1, also: { room: 1, week: 2 }, cartons: 1000 },
    });
    expect(cure?.move?.cost).toBeCloseTo(-(1000 * 27 + 500), 6);
    expect(cure && cureJson(season, schedule, cure).room).toMatchObject({
      room: 'R1',
      also: { room: 'R2', opens: '2026-W38', insteadOf: '2026-W37' },
    });
  });

  it('is not said to be cured where the other room cannot make way', () => {
    const [first, second] = season.rooms as [ProblemRoom, ProblemRoom];
    for (const change of [{ latest: 1 }, { pinned: 1 }]) {
      const [cure] = releaseReasons({ ...season, rooms: [first, { ...second, ...change }] }, schedule).cures;
      expect(cure).toMatchObject({ demand: 0, week: 1, short: 1000 });
      expect(cure?.move).toBeUndefined();
    }
  });

  it('in made-up seasons: two rooms moved keep every wish, and cost what solving again says', () => {
    let pairs = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const made = { rooms: 6, weeks: 10, varieties: 2, weeksToEmpty: 1, packhouse: 2.2, demand: 1.3 };
      const problem = madeProblem(made, seed);
      const { schedule: found } = quickRelease(problem, { seed: 1, moves: 200 });
      const standing = new Standing(problem, found);
      for (const { move, demand } of curesOf(standing, (at, week) => standing.whatIf(at, week))) {
        if (!move?.also) continue;
        pairs += 1;
        const { also } = move;
        const away = standing.whatIf(also.room, null);
        const without = standing.moved(also.room, null, away?.bins ?? new Float64Array(0));
        const placed = without.whatIf(move.room, move.week);
        const after = without.moved(move.room, move.week, placed?.bins ?? new Float64Array(0));
        const now = othersHeld(highs, problem, found, also.room, found.opens[also.room] ?? null) ?? 0;
        const itself = standing.whatIf(also.room, found.opens[also.room] ?? null)?.cost ?? 0;
        const both = othersHeld(highs, problem, after.schedule, also.room, also.week);
        expect(both).toBeDefined();
        expect(Math.abs(now + itself - move.cost - (both ?? 0))).toBeLessThan(1e-5 * Math.abs(now) + 1);
        expect(move.cartons).toBeGreaterThan(0);
        expect(problem.demands[demand]).toBeDefined();
      }
    }
    expect(pairs).toBeGreaterThan(0);
  });
});
