import fc from 'fast-check';
import { expect, test } from 'vitest';
import {
  daysOfBoth,
  daysOfLife,
  type Standard,
  standardChance,
  surelyHolds,
  wantedChance,
} from '../../src/keeping/chance';
import { normalChance, normalQuantile } from '../../src/keeping/normal';

const courses = fc.record({
  atHarvest: fc.double({ min: 55, max: 100, noNaN: true }),
  lossWhileFilling: fc.double({ min: 0, max: 12, noNaN: true }),
  softening: fc.double({ min: 0.2, max: 12, noNaN: true }),
  softeningBeforeSealing: fc.double({ min: 0.2, max: 20, noNaN: true }),
  filledAfter: fc.integer({ min: 0, max: 20 }),
  sealedAfter: fc.integer({ min: 20, max: 60 }),
  known: fc.option(
    fc.record({
      lostByThen: fc.double({ min: 0, max: 10, noNaN: true }),
      spread: fc.double({ min: 0.5, max: 5, noNaN: true }),
      softeningSpread: fc.double({ min: 0.01, max: 0.3, noNaN: true }),
    }),
    { nil: undefined },
  ),
});

const standards: fc.Arbitrary<Standard> = fc.record({
  life: fc.double({ min: 20, max: 400, noNaN: true }),
  spread: fc.oneof(fc.constant(0), fc.double({ min: 0.5, max: 40, noNaN: true })),
  firmness: fc.option(fc.record({ course: courses, least: fc.double({ min: 40, max: 60, noNaN: true }) }), {
    nil: undefined,
  }),
});

const confidences = fc.double({ min: 0.5, max: 0.999, noNaN: true });

/** The same found by halving alone. */
function byHalving(standard: Standard, confidence: number): number {
  let [low, high] = [0, 4096];
  if (standardChance(standard, 0) < confidence) return 0;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (standardChance(standard, middle) >= confidence) low = middle;
    else high = middle;
  }
  return low;
}

test('the days of life and firmness together are those that halving finds', () => {
  fc.assert(
    fc.property(standards, confidences, (standard, confidence) => {
      const wanted = wantedChance(confidence);
      const days = daysOfBoth(standard, wanted, daysOfLife(standard, wanted));
      expect(Math.abs(days - byHalving(standard, confidence))).toBeLessThan(1e-6);
    }),
    { numRuns: 500 },
  );
});

test('what surely holds does hold', () => {
  fc.assert(
    fc.property(standards, confidences, fc.integer({ min: 0, max: 300 }), (standard, confidence, day) => {
      if (surelyHolds(standard, day, wantedChance(confidence)))
        expect(standardChance(standard, day)).toBeGreaterThanOrEqual(confidence - 1e-12);
    }),
    { numRuns: 500 },
  );
});

test('the quantile undoes the chance into the tails', () => {
  for (let z = -8.5; z <= 5; z += 0.07) expect(normalQuantile(normalChance(z)) - z).toBeCloseTo(0, 8);
  expect([normalQuantile(0), normalQuantile(1)]).toEqual([-9, 9]);
});
