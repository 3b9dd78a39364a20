import { describe, expect, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import {
  decimalsOfSetPoints,
  fixed,
  measure,
  measureOf,
  showFigure,
  showMeasure,
  showSetPoint,
  significant,
  unitLabel,
} from '../../src/plan/display';
import { countedFigure, referenceFigure, type Unit } from '../../src/plan/figure';
import { readPlan } from '../../src/plan/read';

const METRIC = { system: 'metric', currency: 'EUR' } as const;
const US = { system: 'us', currency: 'USD' } as const;

function figure(value: number, unit: Unit) {
  return countedFigure('a figure', unit, value, 'for a test');
}

describe('figures in metric units', () => {
  test.each([
    [1271.9, 'm3', '1,272 m³'],
    [2.1, 'degC', '2.1 °C'],
    [412.04, 'kg/day', '412.0 kg/day'],
    [0.0421, 'm3', '0.042 m³'],
    [825, 'bins', '825 bins'],
    [3, 'bins', '3 bins'],
    [0, 'kW', '0.0 kW'],
    [1250000, 'money', '1,250,000 EUR'],
    [21.5, 'money', '21.50 EUR'],
    [0.12, 'money', '0.12 EUR'],
    [-1, 'degC', '-1.0 °C'],
    [-0.0001, 'kg', '-0.00010 kg'],
  ] as const)('%s %s reads %s', (value, unit, text) => {
    expect(showFigure(figure(value, unit), METRIC)).toBe(text);
  });
});

describe('set-points', () => {
  const SOURCE = { citation: 'for a test', known: 'common practice' } as const;

  test.each([
    [1.75, '%', '1.75 %', '1.75 %'],
    [2.25, '%', '2.25 %', '2.25 %'],
    [1.5, '%', '1.5 %', '1.5 %'],
    [3, '%', '3.0 %', '3.0 %'],
    [0.75, 'degC', '0.75 °C', '33.35 °F'],
    [0.61, 'degC', '0.61 °C', '33.1 °F'],
    // Whole tenths of one scale were written so: the other needs no more.
    [0.8, 'degC', '0.8 °C', '33.4 °F'],
    [(31 - 32) / 1.8, 'degC', '-0.6 °C', '31.0 °F'],
    [(31.25 - 32) / 1.8, 'degC', '-0.42 °C', '31.25 °F'],
    [100 / 3, '%', '33.33 %', '33.33 %'],
  ] as const)('%s %s reads %s, or %s', (value, unit, metric, us) => {
    const written = referenceFigure('oxygen', unit, value, SOURCE);
    for (const [units, text] of [
      [METRIC, metric],
      [US, us],
    ] as const) {
      expect(showFigure(written, units)).toBe(text);
      expect(showSetPoint(measureOf(written, units))).toBe(text.split(' ')[0]);
    }
  });

  test('the middle of a range is told as exactly', () => {
    const oxygen = fruitData(readPlan([])).regime('gala-standard')?.oxygen;
    expect(oxygen && showFigure(oxygen, METRIC)).toBe('1.75 %');
  });

  test('what is computed is rounded as before', () => {
    expect(showFigure(figure(1.75, '%'), METRIC)).toBe('1.8 %');
  });

  test('a column of them has the decimals of the one that needs most, and one at least', () => {
    const percent = (value: number) => ({ value, unit: '%' });
    expect(decimalsOfSetPoints([percent(1.5), undefined, percent(1.75)])).toBe(2);
    expect(decimalsOfSetPoints([percent(3)])).toBe(1);
    expect(decimalsOfSetPoints([])).toBe(1);
  });
});

describe('figures in US units', () => {
  // Factors: NIST Special Publication 811 (2008), appendix B; a ton of refrigeration is 12,000 BTU an hour.
  test.each([
    [18.288, 'm', 60, 'ft'],
    [28.316846592, 'm3', 1000, 'ft3'],
    [45.359237, 'kg', 100, 'lb'],
    [1, 't', 2204.622622, 'lb'],
    [-1, 'degC', 30.2, '°F'],
    [10, 'K', 18, '°F'],
    [3.51685284, 'kW', 1, 'TR'],
    [249.08891, 'Pa', 1, 'inH2O'],
    [71.17154584, 'N', 16, 'lbf'],
    [118.0706521, 'kg/day', 260.3012308, 'lb/day'],
    [169.9010796, 'm3/h', 100, 'ft3/min'],
    [0.3048 ** 2, 'm2', 1, 'ft2'],
    [16.01846337, 'kg/m3', 1, 'lb/ft3'],
    // 4.1868 kJ/kgK is 1 BTU/lb°F by the definition of the international-table BTU.
    [4.1868, 'kJ/kgK', 1, 'BTU/lb°F'],
    // 1 W is 3.412141633 BTU/h, a day 24 h, and a tonne 1.10231131 short tons.
    [1, 'W/t', 74.29063, 'BTU/ton/day'],
    [1, 'kg/t/day', 2, 'lb/ton/day'],
    [1, 'MJ', 947.8171203, 'BTU'],
  ] as const)('%s %s is %s %s', (value, unit, expected, spelling) => {
    const shown = measure(value, unit, US);
    expect(shown?.unit).toBe(spelling);
    expect(shown?.value).toBeCloseTo(expected, 4);
  });

  test('bins, cartons, per cent and hours are the same in both systems', () => {
    for (const unit of ['bins', 'cartons', '%', 'h', 'days', 'mg/kg/h'] as const)
      expect(measure(12.5, unit, US)).toEqual(measure(12.5, unit, METRIC));
  });
});

test('what is not a finite number has no measure', () => {
  expect(measure(Number.POSITIVE_INFINITY, '%', METRIC)).toBeUndefined();
  expect(measure(Number.NaN, 'kg', US)).toBeUndefined();
});

test('prices carry the currency of the plan', () => {
  expect(measure(21.5, 'money', METRIC)).toEqual({ value: 21.5, unit: 'EUR' });
  expect(unitLabel('money', US)).toBe('USD');
  expect(showMeasure({ value: 21.5, unit: 'EUR' })).toBe('21.50');
  expect(showMeasure({ value: 1250000, unit: 'EUR' })).toBe('1,250,000');
});

test('exact figures have six significant digits and no commas', () => {
  expect(significant(1271.9456)).toBe('1271.95');
  expect(significant(0.000123456789)).toBe('0.000123457');
  expect(significant(1_234_567)).toBe('1234570');
});

test('rounding to nothing leaves no minus sign', () => {
  expect(fixed(-0.2, 0)).toBe('0');
  expect(fixed(-1234.5, 1)).toBe('-1,234.5');
});
