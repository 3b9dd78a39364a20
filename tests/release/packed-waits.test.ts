import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstDayOfWeek, formatDay, parseDay } from '../../src/plan/dates';
import { checkSchedule } from '../../src/release/checker';
import { packedWaits } from '../../src/release/packed-waits';
import { quickRelease } from '../../src/release/quick';
import type { PackhouseDays, ReleaseProblem, ReleaseSchedule } from '../../src/release/types';
import { packedWaitText } from '../../src/report/packed-waits-json';
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

/** The days of a made-up season that has none closed. */
function seasonDays({ firstWeek, weeks, rooms }: ReleaseProblem): PackhouseDays {
  return {
    ...days,
    starts: firstDayOfWeek(firstWeek),
    ends: firstDayOfWeek(firstWeek + weeks) - 1,
    daysToEmpty: 7 * (rooms[0]?.weeksToEmpty ?? 1),
  };
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
      fc.property(
        fc.integer({ min: 1, max: 40 }),
        fc.constantFrom(5, 5.5, 6, 7),
        fc.integer({ min: 0, max: 6 }),
        (seed, daysAWeek, over) => {
          const made = madeProblem(sizes.S, seed);
          const problem = {
            ...made,
            days: { ...seasonDays(made), daysAWeek, packedWaitDays: 7 * made.packedWaitWeeks + over },
          };
          const { schedule } = quickRelease(problem, { seed, moves: 200 });
          const found = packedWaits(problem, schedule);
          expect(found?.longest?.days ?? 0).toBeLessThanOrEqual(7 * made.packedWaitWeeks);
          expect(found?.tooLong).toEqual([]);
        },
      ),
      { numRuns: 25 },
    );
  });

  it.each([7, 10, 13, 14])(
    'is held to the whole weeks in %i days by the independent checker, whatever the schedule counted',
    (packedWaitDays) => {
      const made = madeProblem(sizes.S, 3);
      const problem = { ...made, packedWaitWeeks: 2, days: { ...seasonDays(made), packedWaitDays } };
      const { schedule } = quickRelease(problem, { seed: 1, moves: 500 });
      const late = checkSchedule(problem, schedule).filter(({ kind }) => kind === 'waited-too-long');
      // Two weeks are counted: right for fourteen days, a week too many for fewer.
      expect(late.length > 0).toBe(packedWaitDays < 14);
      const right = { ...problem, packedWaitWeeks: Math.floor(packedWaitDays / 7) };
      expect(checkSchedule(right, quickRelease(right, { seed: 1, moves: 500 }).schedule)).toEqual([]);
    },
  );

  it('of the sample plan keeps to what it allows', () => {
    const problem = problemOf();
    if (!problem) throw new Error('no problem');
    const found = packedWaits(problem, quickRelease(problem, { seed: 1, moves: 500 }).schedule);
    expect(found?.allowedDays).toBe(21);
    expect(found?.tooLong).toEqual([]);
  });

  it.each([
    [
      6,
      0,
      'The 6 days that cartons may wait count as no whole week: they leave in the week they are packed in.',
    ],
    [10, 7, /7 of 10 days allowed .* count as one whole week: they leave at the latest in the week after\.$/],
    [
      20,
      14,
      /14 of 20 days allowed .* count as 2 whole weeks: they leave at the latest 2 weeks after that\.$/,
    ],
    [14, 14, /14 of 14 days allowed [^:]*$/],
  ])('says so where %i days are not whole weeks', (allowedDays, waited, text) => {
    const longest = {
      variety: 'Gala',
      packClass: 'first',
      packedOn: '2027-01-04',
      leavesOn: '2027-01-11',
      days: waited,
    };
    expect(packedWaitText({ packedWait: { allowedDays, longest, tooLong: [] } })).toMatch(text);
  });
});
