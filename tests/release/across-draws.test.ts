import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import esbuild from 'esbuild';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { certainCosts, scheduleAcrossDraws } from '../../src/release/across-draws';
import { checkSchedule } from '../../src/release/checker';
import type { DrawInputs } from '../../src/release/draw-inputs';
import { drawsOf, mergeTallies, tallyDraws } from '../../src/release/draw-tally';
import { drawnProblem } from '../../src/release/drawn-problem';
import { DrawnSeason } from '../../src/release/drawn-season';
import { plannedDraw } from '../../src/release/draws';
import { tallyInPool } from '../../src/release/draws-in-pool';
import { DrawsCancelled, drawsHere, drawsInWorkers } from '../../src/release/draws-pool';
import { seekInWorkers } from '../../src/release/draws-seek';
import { inputsFromWire, inputsToWire } from '../../src/release/draws-wire';
import { binsByWeek, Unevenness } from '../../src/release/even-work';
import { nodeDrawsWorker } from '../../src/release/node-draws-worker';
import { takeSchedule } from '../../src/release/placing';
import { quickRelease } from '../../src/release/quick';
import { costOfNothing, SeasonState } from '../../src/release/season-state';
import type { ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { blocksOf, meanOf, releaseUncertainty, uncertaintyOf } from '../../src/release/uncertainty';
import { type Made, madeProblem, sizes } from './generate';

const RANGES = { crop: 0.08, storageLife: 0.1, packout: 0.04, demand: 0.1 };

function inputsOf(problem: ReleaseProblem, ranges = RANGES): DrawInputs {
  return {
    ranges,
    rooms: problem.rooms.map((room) => ({
      estimated: 1,
      varieties: new Map([['Variety 1', 1]]),
      places: room.bins * 1.02,
      keeps: { from: 0, until: room.latest + 3 },
    })),
  };
}

const small: Made = { rooms: 8, weeks: 24, varieties: 2, weeksToEmpty: 2 };
const problem = madeProblem(small, 3);
const inputs = inputsOf(problem);
const { schedule } = quickRelease(problem, { seed: 1, moves: 3000 });
const job = { problem, inputs };
const seek = (pool = drawsHere(job), more: object = {}) =>
  scheduleAcrossDraws(problem, schedule, pool, { seed: 1, draws: 24, ...more });

let folder = '';
let workerFile = '';

beforeAll(async () => {
  folder = fs.mkdtempSync(path.join(os.tmpdir(), 'draws-worker-'));
  workerFile = path.join(folder, 'draws-worker.cjs');
  await esbuild.build({
    entryPoints: ['src/release/draws-worker-node.ts'],
    outfile: workerFile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
  });
});

afterAll(() => fs.rmSync(folder, { recursive: true, force: true }));

describe('a schedule that is good across draws', () => {
  it('is never worse than its start on the seasons it is sought on, and holds as planned', async () => {
    for (const seed of [1, 2, 3]) {
      const season = madeProblem({ ...small, packhouse: seed === 2 ? 1.3 : 1.8 }, seed);
      const start = quickRelease(season, { seed: 1, moves: 2000 });
      const own = inputsOf(season);
      const options = { seed, draws: 16, unmet: start.unmet };
      const found = await scheduleAcrossDraws(
        season,
        start.schedule,
        drawsHere({ problem: season, inputs: own }),
        options,
      );
      const span = { seed, first: 0, count: 16 };
      const mean = (one: ReleaseSchedule) =>
        meanOf(tallyDraws(season, one, own, span).values) - certainCosts(season, one);
      expect(found.startMean).toBeCloseTo(mean(start.schedule), 4);
      expect(found.mean).toBeCloseTo(mean(found.schedule), 4);
      expect(found.mean).toBeGreaterThanOrEqual(found.startMean);
      expect(checkSchedule(season, found.schedule, start.unmet)).toEqual([]);
    }
  });

  it('gains where it can: a made-up season of twelve rooms', async () => {
    const season = madeProblem(sizes.S, 8);
    const start = quickRelease(season, { seed: 1, moves: 20_000 }).schedule;
    const pool = drawsHere({ problem: season, inputs: inputsOf(season) });
    const found = await scheduleAcrossDraws(season, start, pool, { seed: 1, draws: 24 });
    expect(found.mean).toBeGreaterThan(found.startMean * 1.002);
  });

  it('opens sooner a room that is soft in many seasons, for a better price', async () => {
    const season = lateRoom();
    const own: DrawInputs = {
      ranges: { ...RANGES, storageLife: 0.2 },
      rooms: [{ estimated: 0, varieties: new Map([['Gala', 1]]), keeps: { from: -4, until: 7.2 } }],
    };
    const start = quickRelease(season, { seed: 1, moves: 2000 }).schedule;
    expect(start.opens).toEqual([6]);
    const pool = drawsHere({ problem: season, inputs: own });
    const found = await scheduleAcrossDraws(season, start, pool, { seed: 1, draws: 60 });
    expect(found.schedule.opens[0]).toBeLessThan(6);
    const held = { seed: 1, first: 60, count: 200 };
    const [before, after] = [start, found.schedule].map((one) =>
      uncertaintyOf(season, one, own, tallyDraws(season, one, own, held), 1),
    );
    expect(after?.mean ?? 0).toBeGreaterThan(before?.mean ?? Number.POSITIVE_INFINITY);
    expect(after?.rooms[0]?.softChance ?? 1).toBeLessThan(before?.rooms[0]?.softChance ?? 0);
  });

  it('keeps every wish: rooms open at once, orders, part weeks, even work, published weeks', async () => {
    for (let seed = 1; seed <= 6; seed++) {
      const made = madeProblem({ ...small, weeksToEmpty: (seed % 3) + 1, packhouse: 1.4 }, seed);
      const season: ReleaseProblem = {
        ...made,
        roomsOpenAtOnce: seed % 2 === 0 ? 2 : null,
        opensBefore: [
          [0, 1],
          [2, 3],
        ],
        evenWork: { price: 0.5, fullWeeks: made.packingBins.map(() => 1) },
        ...(seed % 3 === 0 && { lastWeekBins: made.packingBins.map((bins) => bins / 2) }),
        rooms: made.rooms.map((room, at) =>
          at % 3 === 0 ? { ...room, published: { week: room.earliest, price: 500 } } : room,
        ),
      };
      const start = quickRelease(season, { seed: 1, moves: 1000 });
      const pool = drawsHere({ problem: season, inputs: inputsOf(season) });
      const options = { seed, draws: 10, unmet: start.unmet };
      const found = await scheduleAcrossDraws(season, start.schedule, pool, options);
      expect(checkSchedule(season, found.schedule, start.unmet)).toEqual([]);
      expect(found.mean).toBeGreaterThanOrEqual(found.startMean);
    }
  });

  it('moves no pin and opens no room left closed for a conflict', async () => {
    const pinned = {
      ...problem,
      rooms: problem.rooms.map((room, at) => (at < 3 ? { ...room, pinned: room.latest } : room)),
    };
    const start = quickRelease(pinned, { seed: 1, moves: 2000 });
    const pool = drawsHere({ problem: pinned, inputs });
    const found = await scheduleAcrossDraws(pinned, start.schedule, pool, {
      seed: 1,
      draws: 12,
      unmet: start.unmet,
    });
    expect(found.schedule.opens.slice(0, 3)).toEqual(start.schedule.opens.slice(0, 3));
    const without = await scheduleAcrossDraws(pinned, start.schedule, pool, {
      seed: 1,
      draws: 12,
      unmet: [5],
    });
    expect(without.schedule.opens[5]).toBe(start.schedule.opens[5]);
  });

  it('without any range stays with what is best as planned, or finds better', async () => {
    const none = inputsOf(problem, { crop: 0, storageLife: 0, packout: 0, demand: 0 });
    const pool = drawsHere({ problem, inputs: none });
    const found = await scheduleAcrossDraws(problem, schedule, pool, { seed: 1, draws: 4 });
    expect(found.mean).toBeGreaterThanOrEqual(found.startMean);
  });
});

describe('workers that draw seasons', () => {
  const workers = (count: number) => drawsInWorkers(job, () => nodeDrawsWorker(workerFile), count);

  it('find the same, whatever their number', async () => {
    const here = await seek();
    for (const count of [1, 2, 3]) {
      const pool = workers(count);
      expect(await seek(pool)).toEqual(here);
      pool.close();
    }
    expect(await seek(drawsHere(job), { seed: 2 })).not.toEqual(here);
  });

  it('add up seasons as one thread does', async () => {
    const pool = workers(2);
    const tally = await tallyInPool(pool, schedule, { seed: 1, first: 0, count: 35 });
    pool.close();
    expect(uncertaintyOf(problem, schedule, inputs, tally, 1)).toEqual(
      releaseUncertainty(problem, schedule, inputs, { draws: 35, seed: 1 }),
    );
  });

  it('stop when told to, with the best until then', async () => {
    const stop = new AbortController();
    const pool = workers(2);
    const found = await seek(pool, {
      signal: stop.signal,
      onProgress: ({ round }: { round: number }) => {
        if (round === 1) stop.abort();
      },
    });
    expect(found.stopped).toBe(true);
    expect(found.mean).toBeGreaterThanOrEqual(found.startMean);
    expect(checkSchedule(problem, found.schedule)).toEqual([]);
    await expect(pool.run([], { signal: stop.signal })).rejects.toThrow(DrawsCancelled);
    pool.close();
  });

  it('say what went wrong', async () => {
    const pool = drawsInWorkers(job, () => nodeDrawsWorker(path.join(folder, 'none.cjs')), 1);
    await expect(tallyInPool(pool, schedule, { seed: 1, first: 0, count: 3 })).rejects.toThrow(
      /could not be drawn/,
    );
    pool.close();
  });
});

describe('seasons in blocks', () => {
  it('are the seasons of the whole, each once', () => {
    const span = { seed: 4, first: 7, count: 23 };
    const whole = [...drawsOf(problem, inputs, span)];
    const parts = blocksOf(span).flatMap((block) => [...drawsOf(problem, inputs, block)]);
    expect(parts).toEqual(whole);
    const merged = mergeTallies(blocksOf(span).map((block) => tallyDraws(problem, schedule, inputs, block)));
    expect(merged.values).toEqual(tallyDraws(problem, schedule, inputs, span).values);
  });

  it('the worst tenth is below the mean, and below what one season of ten is below', () => {
    const drawn = releaseUncertainty(problem, schedule, inputs, { draws: 60, seed: 1 });
    expect(drawn.worstTenth).toBeLessThanOrEqual(drawn.low);
    expect(drawn.low).toBeLessThan(drawn.mean);
  });
});

describe('the problem of a season drawn', () => {
  it('as planned is the problem itself, but for the fruit that is soft', () => {
    const kept = { ...inputs, rooms: inputs.rooms.map(({ keeps: _, ...room }) => room) };
    const same = drawnProblem(problem, kept, plannedDraw(problem));
    expect(same.rooms.map(({ bins }) => bins)).toEqual(problem.rooms.map(({ bins }) => bins));
    expect(same.demands).toEqual(problem.demands);
    same.rooms.forEach(({ cartonsABin }, room) => {
      cartonsABin.forEach((week, at) => {
        expect(week.slice(0, -1)).toEqual(problem.rooms[room]?.cartonsABin[at]);
        expect(week.at(-1)).toBe(0);
      });
    });
  });

  it('by the quick rule is worth nearly what it is worth exactly, and never more where all bins fit', () => {
    const span = { seed: 5, first: 0, count: 12 };
    const exact = new DrawnSeason(problem, schedule, inputs);
    for (const draw of drawsOf(problem, inputs, span)) {
      const drawn = drawnProblem(problem, inputs, draw);
      const state = new SeasonState(drawn);
      takeSchedule(state, schedule);
      const quick = state.value - costOfNothing(drawn);
      const truth = exact.outcome(draw).value;
      expect(quick).toBeLessThanOrEqual(truth + 0.02 * Math.abs(truth));
      expect(quick).toBeGreaterThan(truth - 0.05 * Math.abs(truth));
    }
  });
});

/** One room, wanted in each of ten weeks, a little dearer the later. */
function lateRoom(): ReleaseProblem {
  const weeks = 10;
  return {
    ...problem,
    weeks,
    rooms: [
      {
        fill: 'F1',
        room: 'R1',
        bins: 100,
        weeksToEmpty: 1,
        earliest: 2,
        latest: 6,
        bestBefore: 6,
        pinned: null,
        cartonsABin: Array.from({ length: weeks }, () => [10]),
        riskCost: new Array<number>(weeks).fill(0),
      },
    ],
    products: [{ variety: 'Gala', packClass: 'first' }],
    demands: Array.from({ length: 5 }, (_, at) => ({
      id: `D${at}`,
      market: 'home',
      product: 0,
      cartons: Array.from({ length: weeks }, (__, week) => (week === at + 2 ? 1000 : 0)),
      price: 20 + at * 0.2,
      priceOfShortage: 0,
    })),
    packingBins: new Array<number>(weeks).fill(200),
    packedWaitWeeks: 0,
  };
}

describe('seasons drawn, as a whole', () => {
  it('sought in workers, the search itself in one of them, is the same as here', async () => {
    const start = () => nodeDrawsWorker(workerFile);
    const pool = drawsInWorkers(job, start, 2);
    const shares: number[] = [];
    const task = { start: schedule, seed: 1, draws: 24 };
    const onProgress = ({ share }: { share: number }) => shares.push(share);
    const wired = { problem, inputs: inputsFromWire(JSON.parse(JSON.stringify(inputsToWire(inputs)))) };
    try {
      expect(await seekInWorkers(wired, task, { pool, start, onProgress })).toEqual(await seek());
      expect(shares.length).toBeGreaterThan(0);
      const cancelled = seekInWorkers(job, task, { pool, start, signal: AbortSignal.abort() });
      await expect(cancelled).rejects.toThrow(DrawsCancelled);
    } finally {
      pool.close();
    }
  });

  it('count uneven work as the season went: as planned where all comes as planned', () => {
    const season: ReleaseProblem = {
      ...problem,
      evenWork: { price: 3, fullWeeks: problem.packingBins.map(() => 1) },
    };
    const worth = (one: ReleaseProblem) =>
      new DrawnSeason(one, schedule, inputsOf(one)).outcome(plannedDraw(one)).value;
    const planned = new Unevenness(season).cost(binsByWeek(schedule.packed, season.weeks));
    expect(planned).toBeGreaterThan(0);
    expect(worth(problem) - worth(season)).toBeCloseTo(planned, 4);
  });

  it('count a week of all varieties as short where one of them is', () => {
    const { all, varieties, values } = tallyDraws(problem, schedule, inputs, {
      seed: 1,
      first: 0,
      count: 40,
    });
    expect(all.cartons).toBeCloseTo(
      varieties.reduce((sum, { cartons }) => sum + cartons, 0),
      4,
    );
    all.weeks.forEach(({ times }, week) => {
      const each = varieties.map((one) => one.weeks[week]?.times ?? 0);
      expect(times).toBeGreaterThanOrEqual(Math.max(...each));
      expect(times).toBeLessThanOrEqual(
        Math.min(
          values.length,
          each.reduce((sum, one) => sum + one, 0),
        ),
      );
    });
  });
});
