import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DrawInputs } from '../../src/release/draw-inputs';
import { drawnFilling } from '../../src/release/drawn-room';
import { DrawnSeason } from '../../src/release/drawn-season';
import { type Draw, drawSeasons, plannedDraw } from '../../src/release/draws';
import { quickRelease } from '../../src/release/quick';
import { packedAnew } from '../../src/release/respread';
import type { ReleaseProblem } from '../../src/release/types';
import { releaseUncertainty } from '../../src/release/uncertainty';
import { madeProblem } from './generate';

const ranges = { crop: 0.15, storageLife: 0.15, packout: 0.08, demand: 0.2 };

function made(seed: number): ReleaseProblem {
  const problem = madeProblem(
    { rooms: 6, weeks: 16, varieties: 2, weeksToEmpty: (seed % 3) + 1, packhouse: 1.5 },
    seed,
  );
  return {
    ...problem,
    ...(seed % 2 === 0 && { evenWork: { price: 0.5, fullWeeks: problem.packingBins.map(() => 1) } }),
    ...(seed % 3 === 0 && { lastWeekBins: problem.packingBins.map((bins) => bins / 2) }),
  };
}

function inputsOf(problem: ReleaseProblem): DrawInputs {
  return {
    ranges,
    rooms: problem.rooms.map((room) => ({
      estimated: 1,
      varieties: new Map(
        [...problem.products.map(({ variety }) => variety)].slice(0, 1).map((one) => [one, 1]),
      ),
      keeps: { from: -3, until: room.latest + 2 },
    })),
    softens: problem.demands.flatMap((demand, index) =>
      problem.rooms.map((room, at) => ({
        demand: index,
        product: demand.product,
        room: at,
        from: -3,
        until: room.latest + 1.5,
      })),
    ),
  };
}

function someDraws(problem: ReleaseProblem, count: number, seed: number): Draw[] {
  const seasons = drawSeasons(problem, inputsOf(problem), seed);
  return Array.from({ length: count }, () => seasons.next().value);
}

describe('packing spread anew in a season drawn', () => {
  it('is never worth less than the planned proportions, and more in some', () => {
    let more = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), (seed) => {
        const problem = made(seed);
        const { schedule } = quickRelease(problem, { seed: 1, moves: 600 });
        const inputs = inputsOf(problem);
        const [fixed, anew] = [false, true].map((one) => new DrawnSeason(problem, schedule, inputs, one));
        for (const draw of someDraws(problem, 4, seed)) {
          const [before, after] = [fixed?.outcome(draw).value ?? 0, anew?.outcome(draw).value ?? 0];
          expect(after).toBeGreaterThanOrEqual(before);
          if (after > before + 1) more += 1;
        }
      }),
      { numRuns: 40 },
    );
    expect(more).toBeGreaterThan(10);
  });

  it('holds the opening weeks and packs every bin there is, none outside the weeks of its emptying', () => {
    for (let seed = 1; seed <= 20; seed++) {
      const problem = made(seed);
      const { schedule } = quickRelease(problem, { seed: 1, moves: 600 });
      const inputs = inputsOf(problem);
      for (const draw of someDraws(problem, 2, seed)) {
        const packed = packedAnew(problem, schedule, inputs, draw, undefined);
        packed.forEach((row, at) => {
          const opens = schedule.opens[at] ?? null;
          const one = problem.rooms[at];
          const { bins } = drawnFilling(problem, inputs, at, draw);
          const all = row.reduce((sum, amount) => sum + amount, 0);
          expect(all).toBeCloseTo(opens === null ? 0 : (one?.bins ?? 0) * bins, 6);
          row.forEach((amount, week) => {
            const may = opens !== null && week >= opens && week < opens + (one?.weeksToEmpty ?? 0);
            if (!may) expect(amount).toBe(0);
          });
        });
      }
    }
  });

  it('in the season as planned loses nothing of the schedule', () => {
    const problem = made(2);
    const { schedule } = quickRelease(problem, { seed: 1, moves: 600 });
    const inputs = inputsOf(problem);
    const [fixed, anew] = [false, true].map((one) =>
      new DrawnSeason(problem, schedule, inputs, one).outcome(plannedDraw(problem)),
    );
    expect(anew?.value).toBeGreaterThanOrEqual(fixed?.value ?? 0);
  });
});

describe('seasons drawn in pairs', () => {
  it('mirror each other about the plan', () => {
    const [one, other] = someDraws(made(1), 2, 5) as [Draw, Draw];
    one.demand.forEach((factor, at) => {
      expect(factor + (other.demand[at] ?? 0)).toBeCloseTo(2, 12);
    });
    one.storageLife.forEach((factor, at) => {
      expect(factor + (other.storageLife[at] ?? 0)).toBeCloseTo(2, 12);
    });
  });

  it('leave the mean nearer to where many draws have it than chance would', () => {
    const problem = made(4);
    const { schedule } = quickRelease(problem, { seed: 1, moves: 600 });
    const inputs = inputsOf(problem);
    const told = [1, 2, 3, 4].map((seed) =>
      releaseUncertainty(problem, schedule, inputs, { draws: 60, seed }),
    );
    for (const one of told) {
      expect(one.meanError).toBeGreaterThan(0);
      // Without the mirror it would be the spread of the seasons over the root of their number.
      const spread = (one.high - one.low) / (2 * 1.2816);
      expect(one.meanError).toBeLessThan(spread / Math.sqrt(60));
    }
    const means = told.map(({ mean }) => mean);
    const far = Math.max(...means) - Math.min(...means);
    expect(far).toBeLessThan(6 * Math.max(...told.map(({ meanError }) => meanError)));
  });
});
