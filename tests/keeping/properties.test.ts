import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { roomKeeping } from '../../src/keeping/room-keeping';
import type { WindowEdge } from '../../src/keeping/types';
import { firstDayOfWeek } from '../../src/plan/dates';
import { expectFormulasHold } from '../fruit/formulas';
import { present } from '../fruit/plans';
import { addDays } from './dates';
import { galaKeeping, type LotValues, type RoomValues, roomOf } from './rooms';

const lot = fc.record(
  {
    variety: fc.constantFrom('Gala', 'Golden Delicious', 'Fuji', 'Empire', 'Cox', 'Anjou', 'Jonagold'),
    firmnessLbf: fc.double({ min: 8, max: 22, noNaN: true }),
    starch: fc.double({ min: 1, max: 8, noNaN: true }),
    field: fc.integer({ min: 5, max: 32 }),
    treatments: fc.subarray(['1-mcp', 'antioxidant'] as const),
  },
  { requiredKeys: ['variety'] },
);

const room = fc.record({
  lots: fc.array(lot, { minLength: 1, maxLength: 3 }),
  regime: fc.constantFrom('gala-standard', 'gala-low-oxygen', 'fuji-handbook', 'cox-standard', 'gala-air'),
  confidence: fc.double({ min: 1, max: 99.9, noNaN: true }),
  sealed: fc.option(fc.integer({ min: 0, max: 60 }).map((days) => addDays('2026-09-05', days))),
  daysToEmpty: fc.integer({ min: 1, max: 40 }),
});

function keepingOf(values: RoomValues) {
  const { plan, filled } = roomOf(values);
  return roomKeeping(plan, filled);
}

function windowOf(values: RoomValues) {
  return present(keepingOf(values).window, 'window');
}

/** Two edges a hair apart in days may fall into weeks on either side of a Sunday; that is no difference. */
function expectNoLater(edge: WindowEdge, than: WindowEdge) {
  if (Math.abs(edge.because.value - than.because.value) < 1e-6) return;
  expect(edge.week).toBeLessThanOrEqual(than.week);
}

/** Lots need not be told apart in these rooms. */
function withFirst(values: { readonly lots: readonly LotValues[] }, change: LotValues) {
  return { ...values, lots: values.lots.map((each, index) => (index === 0 ? { ...each, ...change } : each)) };
}

describe('whatever the room', () => {
  test('more confidence never makes the window longer, and best before lies within it', () => {
    fc.assert(
      fc.property(room, fc.double({ min: 0, max: 60, noNaN: true }), (values, more) => {
        const loose = windowOf(values);
        const strict = windowOf({ ...values, confidence: Math.min(99.9, values.confidence + more) });
        expectNoLater(strict.latest, loose.latest);
        expectNoLater(loose.bestBefore, loose.latest);
        expect(strict.earliest).toEqual(loose.earliest);
      }),
    );
  });

  test('a longer storage life never makes the window shorter', () => {
    const days = fc.integer({ min: 10, max: 400 });
    fc.assert(
      fc.property(room, days, fc.integer({ min: 0, max: 200 }), (values, life, more) => {
        const shorter = windowOf({ ...values, varieties: [galaKeeping(life)] });
        const longer = windowOf({ ...values, varieties: [galaKeeping(life + more)] });
        expectNoLater(shorter.latest, longer.latest);
      }),
    );
  });

  test('riper fruit never keeps longer', () => {
    const tested = fc.record({
      firmnessLbf: fc.double({ min: 8, max: 22, noNaN: true }),
      starch: fc.double({ min: 1, max: 8, noNaN: true }),
      softer: fc.double({ min: 0, max: 6, noNaN: true }),
      further: fc.double({ min: 0, max: 6, noNaN: true }),
      ethylene: fc.double({ min: 0, max: 20, noNaN: true }),
    });
    fc.assert(
      fc.property(room, tested, (values, { firmnessLbf, starch, softer, further, ethylene }) => {
        const firm = windowOf(withFirst(values, { firmnessLbf, starch, ethylene: 0.1 }));
        const ripe = windowOf(
          withFirst(values, { firmnessLbf: firmnessLbf - softer, starch: starch + further, ethylene }),
        );
        expectNoLater(ripe.latest, firm.latest);
      }),
    );
  });

  test('a lot more never makes the window longer', () => {
    fc.assert(
      fc.property(room, lot, (values, more) => {
        const alone = windowOf(values);
        const joined = windowOf({ ...values, lots: [...values.lots, more] });
        expectNoLater(joined.latest, alone.latest);
      }),
    );
  });

  test('the last week holds the confidence, the next one does not, and every formula gives its value', () => {
    fc.assert(
      fc.property(room, (values) => {
        const { lots, window } = keepingOf(values);
        for (const { lot, withinStandard, latest, storageLife, spread } of lots) {
          expect(withinStandard(latest + 1)).toBeLessThan(values.confidence / 100 + 1e-6);
          // A lot that never was within standard has its last week before picking, where nothing is to be held.
          if (firstDayOfWeek(latest) + 6 <= present(lot.picked).value.first) continue;
          expect(withinStandard(latest)).toBeGreaterThanOrEqual(values.confidence / 100 - 1e-6);
          for (const figure of [storageLife, spread]) expectFormulasHold(figure);
        }
        for (const edge of [window?.earliest, window?.latest]) if (edge) expectFormulasHold(edge.because);
      }),
    );
  });

  test('the chance of being within standard only falls from week to week', () => {
    fc.assert(
      fc.property(room, (values) => {
        for (const { withinStandard, latest } of keepingOf(values).lots) {
          const chances = Array.from({ length: 40 }, (_, week) => withinStandard(latest - 20 + week));
          for (const [week, chance] of chances.entries()) {
            expect(chance).toBeLessThanOrEqual((chances[week - 1] ?? 1) + 1e-12);
            expect(chance).toBeGreaterThanOrEqual(0);
          }
        }
      }),
      { numRuns: 40 },
    );
  });
});
