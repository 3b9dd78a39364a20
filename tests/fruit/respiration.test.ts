import { describe, expect, test } from 'vitest';
import { respirationAtOxygen } from '../../src/fruit/conversions';
import { fruitData } from '../../src/fruit/data';
import {
  carbonDioxidePerTonne,
  respirationAtRegime,
  respirationHeat,
  respirationInAir,
} from '../../src/fruit/respiration';
import type { Variety } from '../../src/fruit/types';
import { expectFormulasHold } from './formulas';
import { planWith, present, written } from './plans';

const data = fruitData(planWith());
const fuji = present(data.variety('Fuji'));

function at(temperature: number, variety: Pick<Variety, 'name' | 'respiration'> = fuji): number {
  const rate = respirationInAir(variety, written(temperature, 'degC'));
  expectFormulasHold(rate);
  return rate.value;
}

describe('respiration in air', () => {
  test('is the table value at a table temperature', () => {
    for (const point of fuji.respiration) expect(at(point.at.value)).toBeCloseTo(point.rate.value, 12);
  });

  test('lies on a straight line of its logarithm between two', () => {
    expect(at(2.5)).toBeCloseTo(Math.sqrt(at(0) * at(5)), 12);
  });

  test('continues the nearest two points beyond the table', () => {
    // Fall varieties double from 0 to 5 °C, and rise by a third from 15 to 20 °C.
    expect(at(-2.5)).toBeCloseTo(3 / Math.SQRT2, 12);
    expect(at(25)).toBeCloseTo(20 * (20 / 15), 12);
  });

  test('rises with every degree for every variety', () => {
    for (const name of data.varietyNames) {
      const variety = present(data.variety(name));
      for (let temperature = -1; temperature < 30; temperature += 0.5) {
        expect(at(temperature + 0.5, variety), name).toBeGreaterThan(at(temperature, variety));
      }
    }
  });

  test('of a table with one point is that point at any temperature', () => {
    const point = { at: written(0, 'degC'), rate: written(4, 'mg/kg/h') };
    const own = { name: 'Lantern', respiration: [point] };
    expect([at(-1, own), at(0, own), at(20, own)]).toEqual([4, 4, 4]);
  });

  test('cannot be told without a table', () => {
    expect(() => at(0, { name: 'Lantern', respiration: [] })).toThrow('Lantern has no respiration table');
  });
});

describe('respiration in store', () => {
  test('is a share of that in air, with the range of the sources around it', () => {
    const regime = present(data.regime('fuji-standard'));
    const [low, expected, high] = (['low', 'expected', 'high'] as const).map(
      (which) => respirationAtRegime(fuji, regime, which).value,
    );
    const shares = [low, expected, high].map((each) => present(each) / at(0));
    for (const [index, share] of [0.3, 0.35, 0.5].entries()) expect(shares[index]).toBeCloseTo(share, 12);
  });

  test('is that in air in an air room', () => {
    const regime = present(data.regime('fuji-air'));
    expect(respirationAtRegime(fuji, regime).value).toBe(at(regime.temperature.value));
  });

  test('gives off carbon dioxide and heat that can be explained', () => {
    const rate = respirationAtRegime(fuji, present(data.regime('fuji-standard')));
    expectFormulasHold(carbonDioxidePerTonne(rate));
    expectFormulasHold(respirationHeat(rate));
    expect(carbonDioxidePerTonne(rate).value).toBeCloseTo(0.0252, 4);
  });

  test('falls with oxygen during the pull-down', () => {
    const share = (oxygen: number) => respirationAtOxygen(written(oxygen, '%'));
    expectFormulasHold(share(2));
    expect(share(20.9).value).toBeCloseTo(1, 12);
    expect(share(5).value).toBeGreaterThan(share(2).value);
  });
});
