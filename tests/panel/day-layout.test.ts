import * as fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  dayAt,
  dayText,
  dayTicks,
  heightOf,
  isPoints,
  linePath,
  pointsPath,
  valueText,
  valueTicks,
} from '../../extension/panel/day-layout';
import { axisTexts } from '../../extension/panel/texts';
import type { DayChart, DayLine } from '../../src/report/card-types';

const chart: DayChart = {
  id: 'gas',
  title: 'Gas',
  unit: '%',
  decimals: 2,
  top: 4,
  bottom: 0,
  description: '',
  lines: [
    { name: 'oxygen', look: 'oxygen', values: [null, 20.9, 2] },
    { name: 'fruit of a', look: 'batch', values: [5, 3, null] },
    { name: 'fruit of b', look: 'batch', values: [null, 4, null] },
  ],
};

describe('a line over the days', () => {
  test('runs from edge to edge and is lifted where a value is missing', () => {
    expect(linePath([0, 2, 4], chart)).toBe('M0 100 L50 50 L100 0');
    expect(linePath([0, null, 4, 2], chart)).toBe('M0 100h0.01 M66.667 0 L100 50'.replace('100h', '100 h'));
    expect(linePath([null, null], chart)).toBe('');
  });

  test('lies at heights that keep the order of its values', () => {
    const value = fc.integer({ min: -50, max: 50 });
    fc.assert(
      fc.property(value, value, (a, b) => {
        const scale = { bottom: -10, top: 10 };
        if (a > b) expect(heightOf(a, scale)).toBeLessThan(heightOf(b, scale));
      }),
    );
    expect([heightOf(4, chart), heightOf(0, chart), heightOf(8, chart)]).toEqual([0, 1, -1]);
  });
});

test('the scale has few round values, all of them on it', () => {
  expect(valueTicks({ bottom: 0, top: 3.1 })).toEqual([0, 1, 2, 3]);
  expect(valueTicks({ bottom: -2.2, top: 7.2 })).toEqual([-2, 0, 2, 4, 6]);
  expect(valueTicks({ bottom: 1, top: 1 })).toEqual([]);
  fc.assert(
    fc.property(
      fc.double({ min: -1000, max: 1000, noNaN: true }),
      fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
      (bottom, span) => {
        const ticks = valueTicks({ bottom, top: bottom + span });
        expect(ticks.length).toBeGreaterThanOrEqual(2);
        expect(ticks.length).toBeLessThanOrEqual(6);
        for (const tick of ticks) {
          expect(tick).toBeGreaterThanOrEqual(bottom - 1e-6 * span);
          expect(tick).toBeLessThanOrEqual(bottom + span * (1 + 1e-6));
        }
      },
    ),
  );
});

test('the values of a scale are told as they are, all with as many decimals', () => {
  expect(axisTexts([-0.325, -0.3, -0.275])).toEqual(['-0.325', '-0.300', '-0.275']);
  expect(axisTexts([0, 0.5, 1])).toEqual(['0.0', '0.5', '1.0']);
  expect(axisTexts([5000, 10_000])).toEqual(['5,000', '10,000']);
  expect(axisTexts([])).toEqual([]);
  fc.assert(
    fc.property(
      fc.double({ min: -1000, max: 1000, noNaN: true }),
      fc.double({ min: 1e-3, max: 1e5, noNaN: true }),
      (bottom, span) => {
        const ticks = valueTicks({ bottom, top: bottom + span });
        const texts = axisTexts(ticks);
        expect(texts.map((text) => Number(text.replaceAll(',', '')))).toEqual(ticks.map((tick) => tick + 0));
        expect(new Set(texts.map((text) => text.split('.')[1]?.length)).size).toBe(1);
      },
    ),
  );
});

test('labels of months stand as far as they have room', () => {
  const days = Array.from({ length: 101 }, (_, day) => `day ${day}`);
  const months = [
    { day: 5, label: 'Oct 2026' },
    { day: 36, label: 'Nov' },
  ];
  expect(dayTicks({ days, months }, 600).map(({ label }) => label)).toEqual(['day 0', 'Nov']);
  expect(dayTicks({ days, months }, 2000).map(({ label }) => label)).toEqual(['day 0', 'Oct 2026', 'Nov']);
  expect(dayTicks({ days: [], months: [] }, 600)).toEqual([]);
});

test('a day is told in words: the fruit of many days together, what is missing left out', () => {
  const card = { days: ['2026-09-08', '2026-09-09', '2026-09-10'], events: [{ day: 2, what: 'sealed' }] };
  expect(dayText(card, chart, 0)).toBe('2026-09-08: fruit of one day 5.00 %.');
  expect(dayText(card, chart, 1)).toBe('2026-09-09: fruit of 2 days 3.00 % to 4.00 %, oxygen 20.90 %.');
  expect(dayText(card, chart, 2)).toBe('2026-09-10: oxygen 2.00 %. Sealed.');
  const read: DayLine = { name: 'oxygen read', look: 'oxygen-read', values: [null, null, 2.1] };
  expect(dayText(card, { ...chart, lines: [...chart.lines, read] }, 2)).toBe(
    '2026-09-10: oxygen 2.00 %, oxygen read 2.10 %. Sealed.',
  );
  expect(dayText(card, { ...chart, lines: [] }, 0)).toBe('2026-09-08: nothing told.');
});

test('the day under a place is the nearest one, never off the chart', () => {
  expect([dayAt(0, 11), dayAt(0.449, 11), dayAt(1, 11), dayAt(-3, 11), dayAt(7, 11)]).toEqual([
    0, 4, 10, 0, 10,
  ]);
});

test('a hair below zero is not minus zero', () => {
  expect(valueText(-0.001, chart)).toBe('0.00 %');
});

test('what was read is points, one a day that has a reading, at the height of its value', () => {
  expect(isPoints('oxygen-read')).toBe(true);
  expect(isPoints('oxygen')).toBe(false);
  expect(pointsPath([null, 5, null, 10, 0], { bottom: 0, top: 10 })).toBe(
    'M25 50h0.01 M75 0h0.01 M100 100h0.01',
  );
  expect(pointsPath([], { bottom: 0, top: 10 })).toBe('');
});
