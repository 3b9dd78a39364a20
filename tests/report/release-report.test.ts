import { describe, expect, test } from 'vitest';
import type { ComputedSeason } from '../../src/findings/types';
import { parseWeek } from '../../src/plan/dates';
import { checkSchedule } from '../../src/release/checker';
import { gapOf } from '../../src/release/gap';
import type { ReleaseProblem, ReleaseResult } from '../../src/release/types';
import { releaseReport } from '../../src/report/release-report';
import { releaseText } from '../../src/report/release-text';
import { weekRanges } from '../../src/report/text-cells';
import { errorsAgainst } from '../cli/schemas';
import { planOf } from './hand-made';

/** Two rooms of 100 bins, ten cartons a bin, four weeks; one market that wants 600 cartons in each of them. */
const problem: ReleaseProblem = {
  firstWeek: parseWeek('2026-W52') ?? 0,
  weeks: 4,
  rooms: [room('R1', 0, 3, null), room('R2', 1, 2, 2)],
  products: [{ variety: 'Gala', packClass: 'first' }],
  demands: [
    {
      id: 'gala-home',
      market: 'home',
      product: 0,
      cartons: [600, 600, 600, 600],
      price: 20,
      priceOfShortage: 10,
    },
  ],
  packingBins: [100, 80, 100, 100],
  roomsOpenAtOnce: null,
  packedWaitWeeks: 0,
  costOfWaiting: 0,
  processingPrice: 3,
};

function room(name: string, earliest: number, latest: number, pinned: number | null) {
  return {
    fill: `${name}-gala`,
    room: name,
    bins: 100,
    weeksToEmpty: 2,
    earliest,
    latest,
    bestBefore: latest,
    pinned,
    cartonsABin: [[10], [10], [10], [10]],
    riskCost: [0, 0, 0, 0],
  };
}

// R1 opens in the first week, R2 in the third; each gives 600 and 400 cartons, of which all are sold.
const result: ReleaseResult = {
  schedule: {
    opens: [0, 2],
    packed: [
      [60, 40, 0, 0],
      [0, 0, 60, 40],
    ],
    sold: [[600, 400, 600, 400]],
    processed: [[0, 0, 0, 0]],
    value: 2000 * 20 - 400 * 10,
  },
  bound: 36_720,
  gap: 0.02,
  boundRestsOn: 'a linear program',
  provenOptimal: false,
  conflicts: [],
};

const season = { plan: { ...planOf({}), fills: new Map() }, filled: new Map() } as unknown as ComputedSeason;
const options = { violations: checkSchedule(problem, result.schedule), stoppedEarly: false };
const report = releaseReport(season, { problem, result }, [], options);

describe('the release report', () => {
  test('of a schedule that the independent checker accepts', () => {
    expect(report.violations).toEqual([]);
  });

  test('counts each week: opened, packed against capacity, wanted, sold, short', () => {
    expect(report.weeks[1]).toEqual({
      week: '2026-W53',
      opens: [],
      binsPacked: 40,
      packingCapacity: 80,
      cartonsDemanded: 600,
      cartonsSold: 400,
      cartonsShort: 200,
      cartonsUnsold: 0,
      cartonsInStock: 0,
    });
    expect(report.weeks.map(({ opens }) => opens)).toEqual([['R1'], [], ['R2'], []]);
  });

  test('sums up to the value', () => {
    const { totals } = report;
    expect(totals).toMatchObject({ bins: 200, binsPacked: 200, cartonsSold: 2000, cartonsShort: 400 });
    const { sales, unsold, shortages, waiting, risk, changes } = report.valueParts;
    expect(sales + unsold - shortages - waiting - risk - changes).toBe(report.value);
    expect([sales, shortages]).toEqual([40_000, 4000]);
  });

  test('says for each room when it opens, is empty, may open, and whether that is pinned', () => {
    expect(report.rooms[1]).toMatchObject({
      room: 'R2',
      opens: '2027-W01',
      emptyBy: '2027-W02',
      earliest: '2026-W53',
      latest: '2027-W01',
      pinned: true,
    });
  });

  test('as text: distance from the bound and what that rests on, the check, shortages with their weeks', () => {
    const text = releaseText(report);
    expect(text).toContain('Within 2.00 % of a proven bound. The bound rests on a linear program.');
    expect(text).toContain('An independent check of the schedule found nothing wrong.');
    expect(text).toMatch(/^Gala +first +home +400 +17 +2026-W53, 2027-W02$/m);
    expect(text).toMatch(/^2026-W52 {2}R1 +60 +100 +600 +600$/m);
  });

  test('never says optimal unless it is proven', () => {
    expect(releaseText(report).toLowerCase()).not.toContain('optimal');
    expect(releaseText({ ...report, provenOptimal: true })).toContain('Proven: no schedule is worth more.');
    const { bound: _, gap: __, ...unbound } = report;
    expect(releaseText(unbound)).toContain('No bound was proven for it.');
  });

  test('says loudly when the check finds the schedule wrong', () => {
    const broken = { ...result.schedule, opens: [3, 2] };
    const violations = checkSchedule(problem, broken);
    const wrong = releaseReport(season, { problem, result: { ...result, schedule: broken } }, [], {
      ...options,
      violations,
    });
    expect(violations.length).toBeGreaterThan(0);
    expect(releaseText(wrong)).toContain('An independent check found the schedule wrong; do not use it');
  });

  test('ends with what must be read before anyone enters, and never calls a room safe', () => {
    expect(report.caution).toMatch(/oxygen and carbon dioxide/);
    expect(releaseText(report)).not.toMatch(/\bsafe\b/i);
  });
});

test('weeks in a row are a range, also over the turn of the year', () => {
  const weeks = [
    { index: 3, label: '2026-W52' },
    { index: 4, label: '2026-W53' },
    { index: 5, label: '2027-W01' },
    { index: 9, label: '2027-W05' },
  ];
  expect(weekRanges(weeks)).toBe('2026-W52..2027-W01, 2027-W05');
  expect(weekRanges([])).toBe('');
});

describe('a schedule that is worth nothing', () => {
  const worth = (value: number, bound: number) => {
    const gap = gapOf(value, bound);
    const one = { ...result, schedule: { ...result.schedule, value }, bound, gap };
    const told = releaseReport(season, { problem, result: one }, [], options);
    return { told, text: releaseText(told).replace(/\s+/g, ' ') };
  };

  test('is at no share of what could be had: the bound is told, and no gap of 100 %', () => {
    const { told, text } = worth(0, 36_720);
    expect(told.bound).toBe(36_720);
    expect(told).not.toHaveProperty('gap');
    expect(errorsAgainst('release-report', told)).toEqual([]);
    expect(text).toContain('this one is worth nothing, so there is no gap to tell');
    expect(text).not.toContain('100.00 %');
  });

  test('has a gap of 0 where nothing can be had either', () => {
    expect(worth(0, 0).told.gap).toBe(0);
  });

  test('keeps its gap where it is worth something', () => {
    expect(worth(36_000, 36_720).told.gap).toBeCloseTo(0.0196, 4);
  });
});
