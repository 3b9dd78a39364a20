import type { Highs } from 'highs';
import { beforeAll, describe, expect, it } from 'vitest';
import { pinAloneForbids } from '../../src/release/breaches';
import { checkSchedule } from '../../src/release/checker';
import { findConflicts } from '../../src/release/conflicts';
import { curesOf } from '../../src/release/cures';
import { quickRelease } from '../../src/release/quick';
import { releaseReasons } from '../../src/release/reasons';
import { cartonsGained } from '../../src/release/room-cure';
import { Standing } from '../../src/release/standing';
import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { cureJson } from '../../src/report/reason-json';
import { cureText } from '../../src/report/reason-text';
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

  it('is cured by taking out two pins together where neither alone would do', () => {
    const [first, second] = season.rooms as [ProblemRoom, ProblemRoom];
    const pinned = {
      ...season,
      rooms: [
        { ...first, pinned: 4 },
        { ...second, pinned: 1 },
      ],
    };
    expect(checkSchedule(pinned, schedule)).toEqual([]);
    const [cure] = releaseReasons(pinned, schedule).cures;
    expect(cure?.move).toBeUndefined();
    expect(cure).toMatchObject({ short: 1000, left: 1000 });
    expect(cure?.unpin).toMatchObject({ room: 0, week: 1, also: { room: 1, week: 2 }, staysShort: 0 });
    expect(cure?.unpin?.cost).toBeCloseTo(-(1000 * 27 + 500), 6);
    const json = cure && cureJson(pinned, schedule, cure);
    expect(json?.unpin).toMatchObject({
      fill: 'R1-fill',
      pinned: '2026-W40',
      opens: '2026-W37',
      also: { fill: 'R2-fill', pinned: '2026-W37', opens: '2026-W38' },
    });
    const gala = {
      demand: 'gala',
      market: 'home',
      variety: 'Gala',
      packClass: 'first',
      cartonsShort: 1000,
      cartonsDemanded: 1000,
    };
    const week = { week: '2026-W37', cartonsShort: 1000, cure: json as NonNullable<typeof json> };
    expect(cureText({ ...gala, weeks: [week] }, 'EUR')).toBe(
      'gala in 2026-W37, 1,000 short: take out the pins of R1-fill (2026-W40) and R2-fill (2026-W37): opened in ' +
        '2026-W37 and R2-fill in 2026-W38, 0 stay short (all 1,000 cartons, brings EUR 27,500 more); or, with the pin kept, ' +
        'buy in, or agree on 1,000 cartons less',
    );
    // A pinned room that makes way for one without a pin is the pin to take out.
    const one = { ...season, rooms: [first, { ...second, pinned: 1 }] };
    expect(releaseReasons(one, schedule).cures[0]?.unpin).toMatchObject({
      room: 1,
      week: 2,
      also: { room: 0, week: 1 },
    });
  });

  it('in made-up seasons with every room pinned: two pins are let go of only where no one pin would help', () => {
    let pairs = 0;
    for (let seed = 1; seed <= 40; seed++) {
      const made = { rooms: 5, weeks: 10, varieties: 2, weeksToEmpty: 1, packhouse: 2.2, demand: 1.3 };
      const free = madeProblem(made, seed);
      const { schedule: found } = quickRelease(free, { seed: 1, moves: 30 });
      const rooms = free.rooms.map((one, index) => ({ ...one, pinned: found.opens[index] ?? null }));
      const problem = { ...free, rooms };
      const standing = new Standing(problem, found);
      for (const { unpin, demand, week, short } of curesOf(standing, (at, of) => standing.whatIf(at, of))) {
        if (!unpin?.also) continue;
        pairs += 1;
        const least = Math.max(1, 0.05 * short);
        for (const [other, { earliest, latest }] of rooms.entries())
          for (let at = earliest; at <= latest; at++) {
            const product = problem.demands[demand]?.product ?? 0;
            const gives = (rooms[other]?.cartonsABin[at]?.[product] ?? 0) > 0;
            const inReach = at <= week && at >= week - problem.packedWaitWeeks;
            if (!gives || !inReach || !pinAloneForbids(standing, other, at)) continue;
            const alone = standing.whatIf(other, at);
            const gained = alone && cartonsGained(standing, { demand, week, least }, alone.sold);
            expect(gained, `${seed}: ${other} in ${at}`).toBeUndefined();
          }
        expect(unpin.cartons).toBeGreaterThan(0);
        const opens = found.opens.map((at, room) =>
          room === unpin.room ? unpin.week : room === unpin.also?.room ? unpin.also.week : at,
        );
        const pinnedSo = rooms.map((room, index) => ({ ...room, pinned: opens[index] ?? null }));
        // A room that can be opened in no week whatever the others do is left out of both.
        expect(findConflicts({ ...problem, rooms: pinnedSo }).unmet).toEqual(findConflicts(problem).unmet);
      }
    }
    expect(pairs).toBeGreaterThan(0);
  });
});
