import { describe, test } from 'vitest';
import {
  activationEnergy,
  btuPerShortTonDay,
  carbonDioxideDensity,
  kilocaloriesPerTonneDay,
} from '../../src/fruit/conversions';
import { carbonDioxidePerTonne, respirationHeat } from '../../src/fruit/respiration';
import { specificHeats } from '../../src/fruit/varieties/bulk';
import { parseQuantity, toUnit } from '../../src/plan/quantity';
import { specificHeatOfMaterial } from '../../src/room/cooling';
import { present, written } from '../fruit/plans';
import { check } from './published';

const HEAT_CHAPTER =
  'Heat Load Calculation, chapter of USDA Agriculture Handbook 66, https://www.scribd.com/doc/259945372';
const HANDBOOK = 'USDA Agriculture Handbook 66';
const COMMODITY_MANUAL =
  'World Food Logistics Organization, Commodity Storage Manual, Apples, 2008, https://www.scribd.com/document/579136178';
const KCAL_J = 4186;
const BTU_J = 1055.06;
const SHORT_TON_KG = 907.18474;
const DAY_S = 86_400;
const MG_A_DAY = 24;

describe('carbon dioxide', () => {
  const GAS_LAW = { source: 'Ideal gas law at 101.325 kPa', known: 'published', tolerance: 0.00005 } as const;
  // [°C, mg per mL, mL per mg]
  const MASS = [
    [0, 1.9635, 0.5093],
    [1, 1.9563, 0.5112],
    [5, 1.9282, 0.5186],
    [10, 1.8941, 0.5279],
    [15, 1.8613, 0.5373],
    [20, 1.8295, 0.5466],
  ] as const;
  test.each(MASS)('a millilitre at %d °C is %d mg, a milligram %d mL', (temperature, mass, volume) => {
    const density = carbonDioxideDensity(written(temperature, 'degC')).value;
    check(
      {
        ...GAS_LAW,
        id: `mass-per-ml-${temperature}`,
        what: `Mass of a millilitre of CO2 at ${temperature} °C`,
        expected: mass,
        unit: 'mg/mL',
      },
      density,
    );
    check(
      {
        ...GAS_LAW,
        id: `volume-per-mg-${temperature}`,
        what: `Volume of a milligram of CO2 at ${temperature} °C`,
        expected: volume,
        unit: 'mL/mg',
      },
      1 / density,
    );
  });

  const DIVISORS = [
    [0, 2],
    [10, 1.9],
    [20, 1.8],
  ] as const;
  test.each(DIVISORS)('the handbook at %d °C divides by %d', (temperature, expected) => {
    check(
      {
        id: `handbook-divisor-${temperature}`,
        what: `The handbook's milligrams of CO2 to a millilitre at ${temperature} °C`,
        source: HANDBOOK,
        known: 'from memory',
        expected,
        unit: 'mg/mL',
        tolerance: 0.05,
      },
      carbonDioxideDensity(written(temperature, 'degC')).value,
    );
  });

  const DAILY = [
    [1, 0.024],
    [1.5, 0.036],
    [2, 0.048],
    [3, 0.072],
    [4, 0.096],
    [5, 0.12],
    [6, 0.144],
  ] as const;
  test.each(DAILY)('%d mg/kg/h is %d kg a tonne and day', (rate, expected) => {
    check(
      {
        id: `carbon-dioxide-a-day-${rate}`,
        what: `CO2 a tonne and day at ${rate} mg/kg/h`,
        source: 'Arithmetic: 24 hours, 1000 kg, 1,000,000 mg',
        known: 'published',
        expected,
        unit: 'kg/t/day',
        tolerance: 0.0005,
      },
      carbonDioxidePerTonne(written(rate, 'mg/kg/h')).value,
    );
  });
});

describe('heat of a milligram of carbon dioxide', () => {
  const perMilligram = { unit: 'J/mg', tolerance: 0.005 };
  const perTonne = { unit: 'W/t', tolerance: 0.0005 };
  test('by the 61 kcal rule', () => {
    const from = { source: HEAT_CHAPTER, known: 'published' } as const;
    const heat = kilocaloriesPerTonneDay(1) * KCAL_J;
    check(
      {
        ...from,
        ...perMilligram,
        id: 'heat-per-mg-61',
        what: 'Heat of a milligram of CO2 by the 61 kcal rule',
        expected: 10.64,
      },
      heat / (1000 * MG_A_DAY),
    );
    check(
      {
        ...from,
        ...perTonne,
        id: 'heat-watts-61',
        what: 'Heat of 1 mg CO2/kg/h by the 61 kcal rule',
        expected: 2.955,
      },
      heat / DAY_S,
    );
  });

  test('by the 220 BTU rule', () => {
    check(
      {
        ...perMilligram,
        id: 'heat-per-mg-220',
        what: 'Heat of a milligram of CO2 by the 220 BTU rule',
        source: HANDBOOK,
        known: 'from memory',
        expected: 10.66,
      },
      (btuPerShortTonDay(1) * BTU_J) / (SHORT_TON_KG * MG_A_DAY),
    );
  });

  test('by 10.7 J/mg, which the tool uses', () => {
    check(
      {
        ...perTonne,
        id: 'heat-watts-10.7',
        what: 'Heat of 1 mg CO2/kg/h by the 10.7 J/mg the tool uses',
        source: 'ASHRAE Handbook, Refrigeration, Thermal properties of foods, heat of respiration',
        known: 'from memory',
        expected: 2.972,
      },
      respirationHeat(written(1, 'mg/kg/h')).value,
    );
  });
});

test.each([
  [5097, 42.4],
  [5447, 45.3],
] as const)('%d K is %d kJ/mol', (kelvin, expected) => {
  const faster = Math.exp(kelvin * (1 / 273.15 - 1 / 283.15));
  check(
    {
      id: `activation-energy-${kelvin}`,
      what: `Activation energy of Golden Delicious, from ${kelvin} K`,
      source: 'Andrich and others 1998, Postharvest Biology and Technology 14:1-9',
      known: 'published',
      expected,
      unit: 'kJ/mol',
      tolerance: 0.05,
    },
    activationEnergy(1, faster, 0, 10),
  );
});

describe('specific heats', () => {
  test('in the units of the sources', () => {
    check(
      {
        id: 'specific-heat-apples',
        what: 'Specific heat of apples above freezing',
        source: COMMODITY_MANUAL,
        known: 'published',
        expected: 0.91,
        unit: 'BTU/lb°F',
        tolerance: 0.0005,
      },
      // A BTU per pound and °F is 4.1868 kJ/kgK, by definition of the BTU (International Table).
      specificHeats.apple.value / 4.1868,
    );
    check(
      {
        id: 'specific-heat-pears',
        what: 'Specific heat of pears above freezing',
        source: HEAT_CHAPTER,
        known: 'published',
        expected: 0.86,
        unit: 'kcal/kgK',
        tolerance: 0.0005,
      },
      (specificHeats.pear.value * 1000) / KCAL_J,
    );
    check(
      {
        id: 'specific-heat-wood',
        what: 'Specific heat of wooden bins',
        source: HEAT_CHAPTER,
        known: 'published',
        expected: 0.5,
        unit: 'kcal/kgK',
        tolerance: 0.0005,
      },
      (specificHeatOfMaterial.wood.value * 1000) / KCAL_J,
    );
  });
});

describe('pounds', () => {
  const kilograms = (text: string) => present(parseQuantity(text, 'mass')).value;
  const MASSES = [
    ['carton', '40 lb', 18.2, 'published', COMMODITY_MANUAL, 0.1],
    ['bushel', '42 lb', 19.05, 'from memory', 'Bushel of apples in United States trade statistics', 0.005],
  ] as const;
  test.each(MASSES)('a %s of %s is %d kg', (name, text, expected, known, source, tolerance) => {
    check(
      { id: `mass-of-${name}`, what: `A ${name} of ${text}`, source, known, expected, unit: 'kg', tolerance },
      kilograms(text),
    );
  });

  test('of force', () => {
    check(
      {
        id: 'kilograms-force-of-lbf',
        what: '1 lbf in kgf',
        source: 'NIST Special Publication 811 (2008), appendix B',
        known: 'published',
        expected: 0.453592,
        unit: 'kgf',
        // The sixth decimal of the source.
        tolerance: 0.000001,
      },
      toUnit(present(parseQuantity('1 lbf', 'force')).value, 'force', 'kgf'),
    );
  });
});
