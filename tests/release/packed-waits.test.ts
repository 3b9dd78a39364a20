import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstDayOfWeek, formatDay, parseDay } from '../../src/plan/dates';
import { packedWaits } from '../../src/release/packed-waits';
import { quickRelease } from '../../src/release/quick';
import type { PackhouseDays, ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { madeProblem, sizes } from './generate';
import { problemOf } from './sample-problem';

const days: PackhouseDays = {
  starts: parseDay('2026-08-01') ?? 0,
  ends: parseDay('2027-12-31') ?? 0,
  daysAWeek: 5,
  closed: [],
  daysToEmpty: 7,
  packedWaitDays: 7,
};

const [room, demand] = [madeProblem(sizes.S, 1).rooms[0], madeProblem(sizes.S, 1).demands[0]];

/** One product; so many cartons packed and sold in each of four weeks, from a room that gives one carton a bin. */
function season(packed: number[], sold: number[], change: Partial<PackhouseDays> = {}) {
  if (!room || !demand) throw new Error('no season');
  const weeks = packed.length;
  const problem: ReleaseProblem = {
    ...madeProblem(sizes.S, 1),
    weeks,
    days: { ...days, ...change },
    rooms: [
      { ...room, bins: 100, weeksToEmpty: weeks, earliest: 0, latest: 0, cartonsABin: packed.map(() => [1]) },
    ],
    products: [{ variety: 'Gala', packClass: 'first' }],
    demands: [{ ...demand, product: 0, cartons: sold }],
  };
  const schedule: ReleaseSchedule = {
    opens: [0],
    packed: [packed],
    sold: [sold],
    processed: [packed.map(() => 0)],
    value: 0,
  };
  return { problem, schedule };
}

describe('how long packed cartons wait, to the day', () => {
  it('is not told where the problem knows weeks alone', () => {
    const { days: _, ...problem } = season([100, 0], [0, 100]).problem;
    expect(packedWaits(problem, season([100, 0], [0, 100]).schedule)).toBeUndefined();
  });

  it('is a week for each carton that is sold a week later, and nothing for one sold as it is packed', () => {
    const later = season([100, 0, 0], [0, 100, 0]);
    expect(packedWaits(later.problem, later.schedule)).toMatchObject({ longest: { days: 7 }, tooLong: [] });
    const now = season([100, 0, 0], [100, 0, 0]);
    expect(packedWaits(now.problem, now.schedule)?.longest?.days).toBe(0);
  });

  it('takes closed days into account, by hand', () => {
    // Packed 20 a day in week 0; of week 1 only Thursday and Friday are left, 50 a day.
    const { problem } = season([100, 0], [0, 100]);
    const monday = firstDayOfWeek(problem.firstWeek + 1);
    const closed = [monday, monday + 1, monday + 2];
    const one = season([100, 0], [0, 100], { closed });
    const found = packedWaits(one.problem, one.schedule);
    // Monday's leave on Thursday after 10 days, as do Tuesday's after 9 and half of Wednesday's after 8; the rest on Friday.
    const day = (text: number) => formatDay(text);
    expect(day(found?.longest?.packedOn ?? 0)).toBe(day(monday - 7));
    expect(day(found?.longest?.leavesOn ?? 0)).toBe(day(monday + 3));
    expect(found?.longest?.days).toBe(10);
    // All but Friday's, and of them Thursday's leave on Friday after 8 days.
    expect(found?.tooLong.map(({ cartons }) => Math.round(cartons))).toEqual([80]);
  });

  it('never passes the whole weeks of the schedule where all weeks work the same days', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 40 }), fc.constantFrom(5, 5.5, 6, 7), (seed, daysAWeek) => {
        const made = madeProblem(sizes.S, seed);
        const weeksToEmpty = made.rooms[0]?.weeksToEmpty ?? 1;
        const problem = {
          ...made,
          days: {
            ...days,
            starts: firstDayOfWeek(made.firstWeek),
            ends: firstDayOfWeek(made.firstWeek + made.weeks) - 1,
            daysAWeek,
            daysToEmpty: 7 * weeksToEmpty,
            packedWaitDays: 7 * made.packedWaitWeeks,
          },
        };
        const { schedule } = quickRelease(problem, { seed, moves: 200 });
        const found = packedWaits(problem, schedule);
        expect(found?.longest?.days ?? 0).toBeLessThanOrEqual(problem.days.packedWaitDays);
        expect(found?.tooLong).toEqual([]);
      }),
      { numRuns: 25 },
    );
  });

  it('of the sample plan keeps to what it allows', () => {
    const problem = problemOf();
    if (!problem) throw new Error('no problem');
    const found = packedWaits(problem, quickRelease(problem, { seed: 1, moves: 500 }).schedule);
    expect(found?.allowedDays).toBe(21);
    expect(found?.tooLong).toEqual([]);
  });
});
