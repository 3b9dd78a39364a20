import { describe, expect, it } from 'vitest';
import { checkSchedule } from '../../src/release/checker';
import { quickRelease } from '../../src/release/quick';
import { solveRelease } from '../../src/release/solve';
import type { ReleaseProblem } from '../../src/release/types';
import { valueParts } from '../../src/report/release-account';
import { madeProblem } from './generate';
import { loadHighs } from './highs';
import { problemOf } from './sample-problem';

/** A small season of which every second room is in air, at a price for each week that it waits. */
function withAir(seed: number, price: number): ReleaseProblem {
  const made = madeProblem({ rooms: 5, weeks: 12, varieties: 1, weeksToEmpty: 2, packhouse: 1.6 }, seed);
  return {
    ...made,
    rooms: made.rooms.map((room, at) => {
      if (at % 2 === 1 || price === 0) return room;
      const weekInAir = price * room.bins;
      return {
        ...room,
        weekInAir,
        riskCost: room.riskCost.map((risk, week) => risk + weekInAir * Math.max(0, week - room.earliest)),
      };
    }),
  };
}

/** Bins times weeks that the rooms in air wait; of those that open. */
function waiting(problem: ReleaseProblem, opens: readonly (number | null)[]): number {
  return problem.rooms.reduce((sum, room, at) => {
    const week = opens[at] ?? null;
    return at % 2 === 1 || week === null ? sum : sum + room.bins * (week - room.earliest);
  }, 0);
}

describe('a price for weeks in air', () => {
  it('counts each bin of a room in air for each week from the first in which it may open, and no sealed one', () => {
    const [plain, priced] = [
      problemOf(),
      problemOf([/^policy:\n/m, 'policy:\n  price-of-week-in-air: 0.5\n']),
    ];
    if (!plain || !priced) throw new Error('no problem');
    // R1 is the room in air: 154 bins, from week 2 on.
    priced.rooms.forEach((room, at) => {
      const before = plain.rooms[at];
      expect(room.weekInAir).toBe(room.room === 'R1' ? 77 : undefined);
      room.riskCost.forEach((cost, week) => {
        const more = room.room === 'R1' ? 0.5 * 154 * Math.max(0, week - room.earliest) : 0;
        expect(cost - (before?.riskCost[week] ?? 0)).toBeCloseTo(more, 6);
      });
    });
    const { schedule } = quickRelease(priced, { seed: 1, moves: 1000 });
    expect(checkSchedule(priced, schedule)).toEqual([]);
    const { inAir, risk, ...parts } = valueParts(priced, schedule);
    const opens = schedule.opens[priced.rooms.findIndex(({ room }) => room === 'R1')] ?? 0;
    expect(inAir).toBeCloseTo(77 * (opens - 2), 6);
    const { sales, unsold, shortages, waiting: stock, changes, unevenWork } = parts;
    expect(sales + unsold - shortages - stock - risk - inAir - changes - unevenWork).toBeCloseTo(
      schedule.value,
      1,
    );
  });

  it('never has what is in air wait longer the higher it is, in seasons solved to proof', async () => {
    let sooner = 0;
    for (let seed = 1; seed <= 8; seed++) {
      const waits: number[] = [];
      for (const price of [0, 2, 20]) {
        const problem = withAir(seed, price);
        const result = await solveRelease(problem, {
          seed: 1,
          moves: 3000,
          gap: 0,
          timeLimitSeconds: 60,
          loadHighs,
        });
        expect(result.provenOptimal, `season ${seed} at ${price}`).toBe(true);
        expect(checkSchedule(problem, result.schedule)).toEqual([]);
        waits.push(waiting(problem, result.schedule.opens));
      }
      const [free = 0, cheap = 0, dear = 0] = waits;
      expect(cheap).toBeLessThanOrEqual(free + 1e-6);
      expect(dear).toBeLessThanOrEqual(cheap + 1e-6);
      if (dear < free) sooner += 1;
    }
    expect(sooner).toBeGreaterThan(2);
  });
});
