import { expect, test } from 'vitest';
import { studentT } from '../../src/learning/student';

test("Student's t is as printed in the tables of every handbook of statistics", () => {
  // Two-sided 95 % points of the usual table.
  const printed = [
    [1, 12.706],
    [2, 4.303],
    [3, 3.182],
    [4, 2.776],
    [5, 2.571],
    [9, 2.262],
    [10, 2.228],
    [30, 2.042],
    [120, 1.98],
  ] as const;
  for (const [degrees, t] of printed) expect(studentT(0.95, degrees)).toBeCloseTo(t, 3);
  expect(studentT(0.95, 0)).toBe(Number.POSITIVE_INFINITY);
  expect(studentT(0.95, 100_000)).toBeCloseTo(1.96, 3);
});
