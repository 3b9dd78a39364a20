import { describe, test } from 'vitest';
import { respirationAtOxygen } from '../../src/fruit/conversions';
import { written } from '../fruit/plans';
import { check } from './published';

const OXYGEN = [0.5, 1, 1.5, 2, 3, 5];
/** Respiration as a share of that in air (20.9 % oxygen), by Michaelis constant in kPa; carbon dioxide left out. */
const TABLE = [
  [1, [0.349, 0.524, 0.629, 0.699, 0.786, 0.873]],
  [2, [0.219, 0.365, 0.47, 0.548, 0.657, 0.783]],
  [3, [0.163, 0.286, 0.381, 0.457, 0.572, 0.715]],
  [5, [0.113, 0.207, 0.286, 0.354, 0.465, 0.62]],
] as const;

describe('respiration at low oxygen', () => {
  const cells = TABLE.flatMap(([half, shares]) =>
    shares.map((share, index) => [half, OXYGEN[index] ?? Number.NaN, share] as const),
  );
  test.each(cells)('Michaelis constant %d kPa at %d kPa oxygen leaves %d', (half, oxygen, expected) => {
    check(
      {
        id: `michaelis-${half}-at-${oxygen}`,
        what: `Respiration at ${oxygen} % oxygen as a share of that in air, Michaelis constant ${half} kPa`,
        source: 'Michaelis-Menten equation related to air at 20.9 % oxygen',
        known: 'published',
        expected,
        unit: '1',
        tolerance: 0.0005,
      },
      respirationAtOxygen(written(oxygen, '%'), written(half, '%')).value,
    );
  });

  test('the constant used for pull-down agrees with the cut that was measured', () => {
    check(
      {
        id: 'michaelis-used-at-2',
        what: 'Cut of respiration at 2 % oxygen by the constant that pull-down is reckoned with (60 to 70 %)',
        source:
          'Bohling and Hansen 1983, Acta Horticulturae 138:93-106, https://www.ishs.org/ishs-article/138_10',
        known: 'published',
        expected: 65,
        unit: '%',
        tolerance: 5,
      },
      100 * (1 - respirationAtOxygen(written(2, '%')).value),
    );
  });
});
