import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstDayOfWeek } from '../../src/plan/dates';
import { daysInUse, hoursUntilFree, isOut } from '../../src/plant/out-of-use';

const at = { file: '', start: 0, end: 0 };
const spans = fc
  .array(fc.tuple(fc.integer({ min: 20_000, max: 20_060 }), fc.integer({ min: 0, max: 5 })), { maxLength: 4 })
  .map((all) => all.map(([first, days]) => ({ value: { first, last: first + days }, at })));

describe('days on which a machine is out of use', () => {
  it('are left out of the days of their weeks', () => {
    const monday = firstDayOfWeek(2960);
    const out = [{ value: { first: monday + 1, last: monday + 3 }, at }];
    expect(daysInUse(out, 2960)).toBe(4);
    expect(daysInUse(out, 2961)).toBe(7);
    expect(daysInUse(undefined, 2960)).toBe(7);
  });

  it('are never worked on: a work begins when it can be ended before them', () => {
    fc.assert(
      fc.property(
        spans,
        fc.integer({ min: 24 * 20_000, max: 24 * 20_060 }),
        fc.integer({ min: 1, max: 60 }),
        (out, from, lasts) => {
          const begins = from + hoursUntilFree(out, from, lasts);
          expect(begins).toBeGreaterThanOrEqual(from);
          for (let hour = begins; hour < begins + lasts; hour++)
            expect(isOut(out, Math.floor(hour / 24))).toBe(false);
        },
      ),
    );
  });

  it('delay nothing where there are none', () => {
    expect(hoursUntilFree([], 480_000, 30)).toBe(0);
  });
});
