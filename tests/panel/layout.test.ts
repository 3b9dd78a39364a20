import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  monthTicks,
  niceTop,
  rowShapes,
  scrubberShapes,
  supplyShapes,
  weekTicks,
} from '../../extension/panel/layout';
import type { ScrubberSeries, SupplySeries, TimelineRow } from '../../src/report/timeline-types';

const target = { file: 'plan.lotplan.yaml', start: 0, end: 1 };

function row(over: Partial<TimelineRow>): TimelineRow {
  return {
    key: 'R1-gala',
    room: 'R1',
    varieties: 'Gala',
    bins: '500 bins',
    regime: 'gala-ca',
    target,
    findings: { errors: 0, warnings: 0, notices: 0 },
    description: 'Room R1.',
    cells: [],
    ...over,
  };
}

describe('the shapes of a row', () => {
  test('run from the first bin to the last one packed', () => {
    const shapes = rowShapes(
      row({ filling: { from: 1, to: 2 }, keeping: { from: 3, to: 20 }, emptying: { from: 20, to: 22 } }),
      45,
    );
    expect(shapes.life).toEqual({ from: 1, to: 22 });
  });

  test('of a window: the latest week whole, and the part after best before apart', () => {
    const { window, late } = rowShapes(row({ window: { earliest: 5, bestBefore: 10, latest: 12 } }), 45);
    expect(window).toEqual({ from: 5, to: 13 });
    expect(late).toEqual({ from: 11, to: 13 });
  });

  test('of a window whose best before is its latest have no late part', () => {
    expect(rowShapes(row({ window: { earliest: 5, bestBefore: 12, latest: 12 } }), 45).late).toBeUndefined();
  });

  test('of a window that ends before it begins are a conflict, not a window', () => {
    const shapes = rowShapes(row({ window: { earliest: 9, bestBefore: 4, latest: 6 } }), 45);
    expect(shapes).toEqual({ conflict: 9 });
  });

  test('are cut off where the weeks end; an opening outside them is not drawn', () => {
    const shapes = rowShapes(
      row({
        filling: { from: -2, to: 1 },
        window: { earliest: 3, bestBefore: 50, latest: 60 },
        opens: { week: 46, pinned: true },
        emptying: { from: 46, to: 48 },
      }),
      45,
    );
    expect(shapes).toEqual({
      life: { from: 0, to: 45 },
      filling: { from: 0, to: 1 },
      window: { from: 3, to: 45 },
    });
  });

  test('never leave the chart, whatever the row says', () => {
    const place = fc.double({ min: -100, max: 200, noNaN: true });
    const stretch = fc.option(fc.record({ from: place, to: place }), { nil: undefined });
    const week = fc.integer({ min: -50, max: 150 });
    const rows = fc.record({
      filling: stretch,
      pullDown: stretch,
      keeping: stretch,
      emptying: stretch,
      window: fc.record({ earliest: week, bestBefore: week, latest: week }),
      opens: fc.record({ week, pinned: fc.boolean() }),
    });
    fc.assert(
      fc.property(rows, fc.integer({ min: 1, max: 106 }), (parts, weeks) => {
        const { conflict, opens, ...stretches } = rowShapes(row(parts as Partial<TimelineRow>), weeks);
        for (const { from, to } of Object.values(stretches)) {
          expect(from).toBeGreaterThanOrEqual(0);
          expect(to).toBeGreaterThan(from);
          expect(to).toBeLessThanOrEqual(weeks);
        }
        for (const at of [conflict, opens?.at])
          if (at !== undefined) expect(at >= 0 && at < weeks).toBe(true);
      }),
    );
  });
});

describe('demand and supply', () => {
  const series: SupplySeries = {
    name: 'Gala',
    unit: 'cartons a week',
    demand: [1000, 800, 0],
    supply: [1000, 500, 0],
    surplus: [400, 0, 0],
    short: [1],
    description: '',
  };

  test('share one scale that holds the highest of them', () => {
    const { top, weeks } = supplyShapes(series);
    expect(top).toBe(1500);
    expect(weeks[0]?.supply).toBeCloseTo(1000 / 1500);
    expect(weeks[0]?.surplus).toBeCloseTo(400 / 1500);
    expect(weeks.map(({ short }) => short)).toEqual([false, true, false]);
  });

  test('without a schedule have no bars', () => {
    const { weeks } = supplyShapes({ ...series, supply: [], short: [] });
    expect(weeks.map(({ supply }) => supply)).toEqual([0, 0, 0]);
  });

  test('of nothing at all do not divide by nothing', () => {
    const { top, weeks } = supplyShapes({ ...series, demand: [0], supply: [0], surplus: [0], short: [] });
    expect([top, weeks[0]?.demand]).toEqual([1, 0]);
  });
});

test('a scrubber is over its limit only above it, and unknown weeks stay unknown', () => {
  const series: ScrubberSeries = { name: 'S1', share: [null, 95, 95.1], limit: 95, description: '', target };
  const { weeks, highest, limit } = scrubberShapes(series);
  expect(highest).toBe(95.1);
  expect(weeks.map((week) => week?.over)).toEqual([undefined, false, true]);
  expect(limit).toBeLessThan(1);
  expect(scrubberShapes({ ...series, share: [null] }).highest).toBeNull();
});

test('scales end on round numbers not below what they hold', () => {
  expect([0, 1, 1.2, 950, 1001, 81_000].map(niceTop)).toEqual([1, 1, 1.5, 1000, 1500, 100_000]);
  fc.assert(
    fc.property(fc.double({ min: 1e-3, max: 1e9, noNaN: true }), (value) => {
      expect(niceTop(value)).toBeGreaterThanOrEqual(value * (1 - 1e-12));
      expect(niceTop(value)).toBeLessThanOrEqual(value * 2);
    }),
  );
});

describe('labels of the axis', () => {
  const weeks = Array.from({ length: 45 }, (_, week) => `2026-W${String(week + 1).padStart(2, '0')}`);

  test('come as close as they have room for', () => {
    expect(weekTicks(weeks, 40).slice(0, 2)).toEqual([
      { week: 0, label: 'W01' },
      { week: 1, label: 'W02' },
    ]);
    expect(weekTicks(weeks, 16)[1]).toEqual({ week: 2, label: 'W03' });
    expect(weekTicks(weeks, 4)[1]).toEqual({ week: 8, label: 'W09' });
  });

  test('leave room for today, and for themselves at the end', () => {
    expect(weekTicks(weeks, 20, 10).map(({ week }) => week)).not.toContain(10);
    expect(weekTicks(weeks, 20).at(-1)?.week).toBe(42);
  });

  test('of months leave out what would touch; the year moves on', () => {
    const months = [
      { week: 0, label: 'Aug 2026' },
      { week: 1, label: 'Sep' },
      { week: 5, label: 'Oct' },
    ];
    expect(monthTicks({ months, weeks }, 20).map(({ label }) => label)).toEqual(['', 'Sep 2026', 'Oct']);
    expect(monthTicks({ months, weeks }, 100).map(({ label }) => label)).toEqual(['Aug 2026', 'Sep', 'Oct']);
    expect(monthTicks({ months, weeks }, 5).map(({ label }) => label)).toEqual(['', 'Sep 2026', '']);
  });

  test('of months stand apart in a wide bold face, too', () => {
    const months = [
      { week: 0, label: 'Aug 2026' },
      { week: 1, label: 'Sep' },
      { week: 14, label: 'Dec' },
    ];
    const at = (weekWidth: number) => monthTicks({ months, weeks }, weekWidth).map(({ label }) => label);
    expect(at(5)).toEqual(['', 'Sep 2026', '']);
    expect(at(6)).toEqual(['', 'Sep 2026', 'Dec']);
  });
});
