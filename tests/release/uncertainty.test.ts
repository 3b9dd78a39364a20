import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { DrawInputs, RoomDraw } from '../../src/release/draw-inputs';
import { drawSeasons } from '../../src/release/draws';
import { quickRelease } from '../../src/release/quick';
import type { ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { releaseUncertainty } from '../../src/release/uncertainty';
import { madeProblem, sizes } from './generate';

const season = madeProblem(sizes.S, 7);
const { schedule } = quickRelease(season, { seed: 1, moves: 3000 });
const ranges = { crop: 0.08, storageLife: 0.1, packout: 0.04, demand: 0.1 };

function inputsOf(problem: ReleaseProblem, change: Partial<RoomDraw> = {}): DrawInputs {
  return {
    ranges,
    rooms: problem.rooms.map((room) => ({
      estimated: 1,
      varieties: new Map([['Variety 1', 1]]),
      places: room.bins * 1.02,
      keeps: { from: 0, until: room.latest + 3 },
      ...change,
    })),
  };
}

const drawn = (change: Partial<RoomDraw> = {}, options = { draws: 100, seed: 1 }) =>
  releaseUncertainty(season, schedule, inputsOf(season, change), options);

describe('seasons that could come', () => {
  it('are the same for the same seed, and others for another', () => {
    const once = drawn();
    expect(drawn()).toEqual(once);
    expect(drawn({}, { draws: 100, seed: 2 }).mean).not.toBe(once.mean);
    // Taken from one machine, exactly: on another that counts otherwise this fails.
    const first = drawSeasons(season, inputsOf(season), 1).next().value;
    expect(first.demand[0]).toBe(1.0237178703554903);
  });

  it('do not depend on the order of rooms, products and demands', () => {
    const last = season.products.length - 1;
    const turned: ReleaseProblem = {
      ...season,
      rooms: [...season.rooms]
        .reverse()
        .map((room) => ({ ...room, cartonsABin: room.cartonsABin.map((week) => [...week].reverse()) })),
      products: [...season.products].reverse(),
      demands: [...season.demands].reverse().map((one) => ({ ...one, product: last - one.product })),
    };
    const opens: ReleaseSchedule = {
      ...schedule,
      opens: [...schedule.opens].reverse(),
      packed: [...schedule.packed].reverse(),
    };
    const inputs = inputsOf(season);
    const other = releaseUncertainty(
      turned,
      opens,
      { ...inputs, rooms: [...inputs.rooms].reverse() },
      {
        draws: 50,
        seed: 1,
      },
    );
    const same = drawn({}, { draws: 50, seed: 1 });
    expect(other.mean).toBeCloseTo(same.mean, 3);
    expect(other.varieties.map(({ chance }) => chance)).toEqual(same.varieties.map(({ chance }) => chance));
    expect(other.rooms[0]?.room).toBe(season.rooms.length - 1 - (same.rooms[0]?.room ?? 0));
  });

  it('nine of ten lie within the range of the plan', () => {
    const seasons = drawSeasons(season, inputsOf(season), 3);
    const factors = Array.from({ length: 400 }, () => seasons.next().value);
    const within = (values: readonly number[], range: number) =>
      values.filter((value) => Math.abs(value - 1) <= range).length / values.length;
    const demand = within(
      factors.flatMap((one) => one.demand),
      ranges.demand,
    );
    const crop = within(
      factors.flatMap((one) => one.crop.map((room) => room.get('Variety 1') ?? 0)),
      ranges.crop,
    );
    for (const share of [demand, crop]) {
      expect(share).toBeGreaterThan(0.87);
      expect(share).toBeLessThan(0.93);
    }
  });

  it('without any range are all as planned', () => {
    const none = { ...inputsOf(season), ranges: { crop: 0, storageLife: 0, packout: 0, demand: 0 } };
    const all = releaseUncertainty(season, schedule, none, { draws: 5, seed: 1 });
    for (const value of [all.mean, all.low, all.high]) expect(value).toBeCloseTo(all.planned, 4);
    // Nothing gone soft, so it is what the schedule is worth, but for the risk that is counted there.
    const kept = releaseUncertainty(
      season,
      schedule,
      { ...none, rooms: none.rooms.map(withoutLife) },
      { draws: 1, seed: 1 },
    );
    const risk = schedule.opens.reduce<number>(
      (sum, week, room) => sum + (week === null ? 0 : (season.rooms[room]?.riskCost[week] ?? 0)),
      0,
    );
    expect(kept.planned).toBeGreaterThan(schedule.value + risk - 0.01);
    expect(kept.planned - schedule.value - risk).toBeLessThan(0.01 * Math.abs(schedule.value));
  });

  it('a received crop varies no more, and a room holds no more than its places', () => {
    const [first] = schedule.opens.flatMap((week, room) => (week === null ? [] : [room]));
    const received = drawn({ estimated: 0 });
    expect(received.rooms.find(({ room }) => room === first)?.cost ?? 0).toBeLessThan(
      drawn().rooms.find(({ room }) => room === first)?.cost ?? 0,
    );
  });

  it('fruit that ends before its room opens is all soft', () => {
    const soft = drawn({ keeps: { from: -4, until: 0 } });
    for (const one of soft.rooms) {
      if (schedule.opens[one.room] === null || (schedule.opens[one.room] ?? 0) < 3) continue;
      expect([one.softChance, one.softShare]).toEqual([1, 1]);
    }
    expect(soft.mean).toBeLessThan(drawn().mean);
  });

  it('the chance of a short week lies between none and certainty, and more demand never lowers it', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 50 }), (seed) => {
        const more = {
          ...season,
          demands: season.demands.map((one) => ({
            ...one,
            cartons: one.cartons.map((cartons) => 1.5 * cartons),
          })),
        };
        const options = { draws: 10, seed };
        const [usual, larger] = [season, more].map((one) =>
          releaseUncertainty(one, schedule, inputsOf(season), options),
        );
        usual?.varieties.forEach(({ chance, weeks, cartons }, variety) => {
          for (const one of [chance, ...weeks.map((week) => week.chance)]) {
            expect(one).toBeGreaterThanOrEqual(0);
            expect(one).toBeLessThanOrEqual(1);
          }
          expect(larger?.varieties[variety]?.cartons ?? 0).toBeGreaterThanOrEqual(cartons - 1e-6);
        });
      }),
      { numRuns: 10 },
    );
  });
});

function withoutLife({ keeps: _, ...room }: RoomDraw): RoomDraw {
  return room;
}
