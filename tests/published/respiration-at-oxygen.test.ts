import { describe, test } from 'vitest';
import { respirationAtOxygen } from '../../src/fruit/conversions';
import { fruitData } from '../../src/fruit/data';
import { ethanolMade, heatOfFermentation, quotientAtRegime } from '../../src/fruit/fermentation';
import { planWith, present, written } from '../fruit/plans';
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

describe('respiratory quotient at low oxygen', () => {
  test.each([
    ['Gala', 0.65],
    ['Golden Delicious', 0.75],
    ['Delicious', 0.8],
  ])('%s is a tenth up at %d %% oxygen', (name, oxygen) => {
    const variety = present(fruitData(planWith()).variety(name));
    const regime = { temperature: written(0, 'degC'), oxygen: written(oxygen, '%') };
    check(
      {
        id: `quotient-rise-${name.toLowerCase().replace(' ', '-')}`,
        what: `Rise of the respiratory quotient of ${name} at ${oxygen} % oxygen, 0 °C`,
        source: 'Deng and others 1997, University of California Postharvest Horticulture Series 16:156-161',
        known: 'published',
        expected: 10,
        unit: '%',
        tolerance: 0.5,
      },
      100 * (quotientAtRegime(variety, regime).value / variety.respiratoryQuotient.value - 1),
    );
  });

  test('fermentation gives off the heat that its ethanol does not keep', () => {
    check(
      {
        id: 'heat-of-fermentation',
        what: 'Heat of C6H12O6 -> 2 C2H5OH + 2 CO2, from heats of combustion of 2803 and 1367 kJ/mol',
        source: 'Nielsen, Villadsen and Lidén, Bioreaction Engineering Principles, second edition, Table 4.3',
        known: 'published',
        expected: 69,
        unit: 'kJ/mol',
        tolerance: 0.5,
      },
      heatOfFermentation.value * 2 * 44.0095,
    );
    check(
      {
        id: 'ethanol-of-fermentation',
        what: 'Ethanol for each kg of carbon dioxide of fermentation, a mole of each',
        source: 'Molar masses of ethanol and carbon dioxide (IUPAC), 46.07 and 44.01 g/mol',
        known: 'published',
        expected: 1.0468,
        unit: 'kg',
        tolerance: 0.00005,
      },
      ethanolMade.value,
    );
  });
});
