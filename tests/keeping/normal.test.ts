import { erf } from 'mathjs';
import { expect, test } from 'vitest';
import { normalChance, normalQuantile } from '../../src/keeping/normal';

test('agrees with a general mathematics library from the middle far into the tails', () => {
  for (let z = -6; z <= 6; z += 0.05) {
    expect(normalChance(z)).toBeCloseTo((1 + erf(z / Math.SQRT2)) / 2, 12);
  }
});

test('keeps its relative precision beyond seven standard deviations', () => {
  // Leading terms of the asymptotic series, Abramowitz and Stegun 26.2.12.
  for (const z of [7.5, 9, 12]) {
    const density = Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);
    const series = (density / z) * (1 - z ** -2 + 3 * z ** -4 - 15 * z ** -6 + 105 * z ** -8);
    expect(normalChance(-z) / series).toBeCloseTo(1, 4);
  }
  expect([normalChance(-40), normalChance(40)]).toEqual([0, 1]);
});

test('the quantile undoes the chance', () => {
  expect(normalQuantile(0.5)).toBeCloseTo(0, 12);
  expect(normalQuantile(0.1)).toBeCloseTo(-1.2815515655446004, 12);
  for (const chance of [1e-6, 0.01, 0.3, 0.77, 0.999]) {
    expect(normalChance(normalQuantile(chance))).toBeCloseTo(chance, 12);
  }
});
