import { describe, test } from 'vitest';
import {
  activationEnergy,
  beckerFrickeRate,
  btuFromMillilitres,
  btuPerShortTonDay,
  carbonDioxideDensity,
  kilocaloriesFromMillilitres,
  kilocaloriesPerTonneDay,
  q10,
  q10FromActivationEnergy,
} from '../../src/fruit/conversions';
import { fruitData } from '../../src/fruit/data';
import { respirationHeat, respirationInAir } from '../../src/fruit/respiration';
import { planWith, present, written } from '../fruit/plans';
import { check } from './published';

const data = fruitData(planWith());

const HEAT_CHAPTER =
  'Heat Load Calculation, chapter of USDA Agriculture Handbook 66, https://www.scribd.com/doc/259945372';
const HANDBOOK = 'USDA Agriculture Handbook 66';
const PRODUCE_FACTS =
  'Mitcham, Crisosto and Kader, Produce Facts, University of California, Davis, Postharvest Center';
const ASHRAE = 'ASHRAE Handbook, Refrigeration, Thermal properties of foods, heat of respiration';

function inAir(variety: string, temperature: number): number {
  return respirationInAir(present(data.variety(variety)), written(temperature, 'degC')).value;
}

/** Heat of one milligram per kilogram and hour, W/t. */
const HEAT_OF_ONE = respirationHeat(written(1, 'mg/kg/h')).value;
const KCAL_J = 4186;
const BTU_J = 1055.06;
const SHORT_TON_T = 0.90718474;
const DAY_S = 86_400;

describe('heat of respiration', () => {
  test('by 10.7 J/mg agrees with the handbooks’ day rules', () => {
    check(
      {
        id: 'heat-kcal-61',
        what: 'Heat of 1 mg CO2/kg/h in kcal per tonne and day',
        source: HEAT_CHAPTER,
        known: 'published',
        expected: 61,
        unit: 'kcal/t/day',
        tolerance: 0.5,
      },
      (HEAT_OF_ONE * DAY_S) / KCAL_J,
    );
    check(
      {
        id: 'heat-btu-220',
        what: 'Heat of 1 mg CO2/kg/h in BTU per short ton and day',
        source: HANDBOOK,
        known: 'from memory',
        expected: 220,
        unit: 'BTU/ton/day',
        // Printed to the ten.
        tolerance: 5,
      },
      (HEAT_OF_ONE * SHORT_TON_T * DAY_S) / BTU_J,
    );
  });

  test('by volume agrees with the rules of the produce facts', () => {
    const perMillilitre = HEAT_OF_ONE * carbonDioxideDensity(written(0, 'degC')).value;
    // The rules take a millilitre as 2.0 mg, 1.9 % more than the gas law has at 0 °C.
    check(
      {
        id: 'heat-kcal-122',
        what: 'Heat of 1 mL CO2/kg/h at 0 °C in kcal per tonne and day',
        source: PRODUCE_FACTS,
        known: 'published',
        expected: 122,
        unit: 'kcal/t/day',
        tolerance: 2.5,
      },
      (perMillilitre * DAY_S) / KCAL_J,
    );
    check(
      {
        id: 'heat-btu-440',
        what: 'Heat of 1 mL CO2/kg/h at 0 °C in BTU per short ton and day',
        source: PRODUCE_FACTS,
        known: 'published',
        expected: 440,
        unit: 'BTU/ton/day',
        tolerance: 9,
      },
      (perMillilitre * SHORT_TON_T * DAY_S) / BTU_J,
    );
  });

  test('the four rules are one rule: a millilitre is two milligrams', () => {
    check(
      {
        id: 'rules-kcal-agree',
        what: 'kcal by the millilitre rule against the milligram rule, ratio',
        source: `${HEAT_CHAPTER}; ${PRODUCE_FACTS}`,
        known: 'published',
        expected: 2,
        unit: '1',
        tolerance: 0,
      },
      kilocaloriesFromMillilitres(3) / kilocaloriesPerTonneDay(3),
    );
    check(
      {
        id: 'rules-btu-agree',
        what: 'BTU by the millilitre rule against the milligram rule, ratio',
        source: `${HANDBOOK}; ${PRODUCE_FACTS}`,
        known: 'from memory',
        expected: 2,
        unit: '1',
        tolerance: 0,
      },
      btuFromMillilitres(3) / btuPerShortTonDay(3),
    );
  });

  const WATTS = [
    [1, 2.97],
    [1.5, 4.46],
    [2, 5.94],
    [3, 8.92],
    [4, 11.89],
    [5, 14.86],
    [6, 17.83],
  ] as const;
  test.each(WATTS)('%d mg/kg/h is %d W/t by 10.7 J/mg', (rate, expected) => {
    check(
      {
        id: `heat-watts-${rate}`,
        what: `Heat of ${rate} mg CO2/kg/h by 10.7 J/mg`,
        source: ASHRAE,
        known: 'from memory',
        expected,
        unit: 'W/t',
        tolerance: 0.005,
      },
      respirationHeat(written(rate, 'mg/kg/h')).value,
    );
  });
});

describe('temperature', () => {
  test('Q10 from an activation energy, 0 to 10 °C', () => {
    const source =
      'Andrich and others 1998, Postharvest Biology and Technology 14:1-9: 5,097 K, that is 42.4 kJ/mol';
    check(
      {
        id: 'q10-golden-delicious',
        what: 'Q10 of Golden Delicious, 0 to 10 °C, from 5,097 K',
        source,
        known: 'published',
        expected: 1.933,
        unit: '1',
        tolerance: 0.0005,
      },
      q10FromActivationEnergy((5097 * 8.314462618) / 1000, 0, 10),
    );
    check(
      {
        id: 'q10-63-kj',
        what: 'Q10, 0 to 10 °C, from 63.1 kJ/mol',
        source: 'Arrhenius equation with R = 8.314 J/(mol K)',
        known: 'published',
        expected: 2.668,
        unit: '1',
        tolerance: 0.0005,
      },
      q10FromActivationEnergy(63.1, 0, 10),
    );
  });

  test('fall varieties of the handbook: Q10 and apparent activation energy', () => {
    const [at0, at10, at20] = [inAir('Fuji', 0), inAir('Fuji', 10), inAir('Fuji', 20)];
    const source = `${HANDBOOK}, 2016, fall cultivars`;
    const memory = { source, known: 'from memory' } as const;
    const q = { ...memory, unit: '1', tolerance: 0.005 };
    check({ ...q, id: 'q10-fall-cold', what: 'Q10 0 to 10 °C', expected: 3 }, q10(at0, at10, 0, 10));
    check({ ...q, id: 'q10-fall-warm', what: 'Q10 10 to 20 °C', expected: 2.22 }, q10(at10, at20, 10, 20));
    const e = { ...memory, unit: 'kJ/mol', tolerance: 0.05 };
    const energies = [
      [70.6, at0, at10, 0, 10],
      [55.1, at10, at20, 10, 20],
      [63.2, at0, at20, 0, 20],
    ] as const;
    for (const [expected, cold, warm, low, high] of energies) {
      const id = `activation-energy-${low}-${high}`;
      const what = `Apparent activation energy of fall apples, ${low} to ${high} °C`;
      check({ ...e, id, what, expected }, activationEnergy(cold, warm, low, high));
    }
  });

  // [°C, mg/kg/h, W/t]
  const CORRELATION = [
    [0, 4.622, 13.74],
    [1, 5.328, 15.84],
    [3, 6.93, 20.6],
    [5, 8.799, 26.15],
    [10, 14.733, 43.79],
    [15, 22.648, 67.32],
    [20, 32.749, 97.34],
  ] as const;
  test.each(CORRELATION)('the correlation of Becker and Fricke at %d °C', (temperature, expected, heat) => {
    const from = {
      source: 'Becker and Fricke 1996; coefficients as in ASHRAE Handbook, Refrigeration',
      known: 'from memory',
    } as const;
    const rate = beckerFrickeRate(temperature);
    check(
      {
        ...from,
        id: `becker-fricke-${temperature}`,
        what: `Respiration of apples at ${temperature} °C by Becker and Fricke`,
        expected,
        unit: 'mg/kg/h',
        tolerance: 0.0005,
      },
      rate,
    );
    check(
      {
        ...from,
        id: `becker-fricke-heat-${temperature}`,
        what: `The same as heat at ${temperature} °C`,
        expected: heat,
        unit: 'W/t',
        tolerance: 0.005,
      },
      respirationHeat(written(rate, 'mg/kg/h')).value,
    );
  });
});
