import { describe, expect, test } from 'vitest';
import { dailyPart } from '../../src/learning/daily-wave';
import { longRun } from '../../src/learning/long-run';
import { studentT } from '../../src/learning/student';
import { normalFrom, randomFrom } from './simulated-room';

/** Numbers of which each has a share of the one before in it, with a standard deviation of 1. */
function alike(count: number, share: number, normal: () => number): number[] {
  let last = normal();
  return Array.from({ length: count }, () => {
    last = share * last + Math.sqrt(1 - share ** 2) * normal();
    return last;
  });
}

/** How often an interval about the mean holds the true mean, nothing. */
function held(count: number, share: number, half: (off: readonly number[]) => number): number {
  const normal = normalFrom(randomFrom(17));
  const records = 600;
  let within = 0;
  for (let record = 0; record < records; record++) {
    const values = alike(count, share, normal);
    const mean = values.reduce((sum, value) => sum + value, 0) / count;
    if (Math.abs(mean) <= half(values.map((value) => value - mean))) within++;
  }
  return within / records;
}

const byWaves = (off: readonly number[]) => {
  const { covariance, degrees } = longRun(
    off.map((value) => [value]),
    1,
  );
  return (studentT(0.95, degrees) * Math.sqrt(covariance[0]?.[0] ?? 0)) / off.length;
};

describe('the long-run spread', () => {
  test('gives intervals that hold a mean 95 times in 100 where each value is its own', () => {
    for (const count of [8, 40, 150]) expect(held(count, 0, byWaves)).toBeGreaterThan(0.93);
  });

  test('and nearly so where neighbours are alike, of which the plain spread knows nothing', () => {
    const plain = (off: readonly number[]) =>
      (1.98 * Math.sqrt(off.reduce((sum, value) => sum + value ** 2, 0) / (off.length - 1))) /
      Math.sqrt(off.length);
    expect(held(100, 0.5, plain)).toBeLessThan(0.8);
    expect(held(100, 0.5, byWaves)).toBeGreaterThan(0.92);
  });

  test('has a degree of freedom for each wave, and none without rows', () => {
    expect(longRun([], 1)).toEqual({ covariance: [], degrees: 0 });
    expect(longRun([[1], [2], [-3]], 2).degrees).toBe(1);
    // 0.4 * 125^(2/3) is 10.
    expect(
      longRun(
        Array.from({ length: 126 }, () => [1]),
        1,
      ).degrees,
    ).toBe(10);
  });
});

describe('the daily wave', () => {
  test.each([
    [6, 3],
    [10, 12.5],
    [22, 11],
    [48, 30],
  ])('over %d hours about hour %d shows in a line what it shows by least squares', (hours, middle) => {
    const { cosine, sine } = dailyPart(middle, hours);
    const turn = (2 * Math.PI) / 24;
    const steps = 4000;
    const at = Array.from({ length: steps }, (_, step) => hours * ((step + 0.5) / steps - 0.5));
    const slope = (value: (hour: number) => number) =>
      at.reduce((sum, off) => sum + off * value(middle + off), 0) /
      at.reduce((sum, off) => sum + off ** 2, 0);
    // Of a rate that is a cosine, the level is a sine over the turn; of a sine, one less a cosine.
    expect(slope((hour) => Math.sin(turn * hour) / turn)).toBeCloseTo(cosine, 4);
    expect(slope((hour) => -Math.cos(turn * hour) / turn)).toBeCloseTo(sine, 4);
  });
});
