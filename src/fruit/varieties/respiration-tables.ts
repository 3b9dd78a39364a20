import { compute, type Figure, referenceFigure, type Source } from '../../plan/figure';
import { carbonDioxideDensity } from '../conversions';
import { respirationFromHeat } from '../respiration';
import { commonPractice, remark, sources } from '../sources';
import type { Variety } from '../types';

export type RespirationTable = Variety['respiration'];

type Points = readonly (readonly [temperature: number, value: number])[];

/** Late (autumn) varieties: the usual one for long keepers. */
export const fallVarieties = milligrams(
  [
    [0, 3],
    [5, 6],
    [10, 9],
    [15, 15],
    [20, 20],
  ],
  remark(sources.handbook66Respiration, 'fall cultivars, single values'),
);

/** Early (summer) varieties. */
export const summerVarieties = milligrams(
  [
    [0, 5],
    [5, 8],
    [10, 17],
    [15, 25],
    [20, 31],
  ],
  remark(sources.handbook66Respiration, 'summer cultivars, single values'),
);

/** Mid-season varieties: middle of the range for the average of many. */
export const averageOfMany = watts(
  [
    [0, 9.45],
    [5, 18.15],
    [15, 66],
    [20, 76.9],
  ],
  remark(
    sources.ashraeHeat,
    'average of many apples, middle of 6.8-12.1, 15.0-21.3, 40.3-91.7, 50.0-103.8 W/t',
  ),
);

export const jonathan = watts(
  [
    [0, 11.6],
    [5, 17.5],
  ],
  remark(sources.ashraeHeat, 'Jonathan'),
);
export const mcintosh = watts(
  [
    [0, 10.7],
    [5, 16.0],
  ],
  remark(sources.ashraeHeat, 'McIntosh'),
);

// The lower end of each range: the sheets give the higher one to riper fruit, and fruit for storage is not yet ripe.
export const goldenDelicious = millilitres(
  [
    [0, 3],
    [5, 4],
    [10, 7],
    [20, 15],
  ],
  remark(sources.ucDavisApples, 'Golden Delicious, lower end of the ranges 3-6, 4-8, 7-12, 15-30 mL'),
);

export const delicious = millilitres(
  [
    [0, 2],
    [5, 3],
    [10, 5],
    [20, 12],
  ],
  remark(sources.ucDavisApples, 'Red Delicious, lower end of the ranges 2-5, 3-7, 5-10, from 12 mL'),
);

export const bartlett = millilitres(
  [
    [0, 2],
    [2, 4],
    [5, 6],
    [20, 15],
  ],
  remark(sources.ucDavisBartlett, 'Bartlett, lower end of the ranges 2-3, 4-5, 6-8, 15-35 mL'),
);

/** Winter pears have no table of their own here. */
export const winterPears = millilitres(
  [
    [0, 2],
    [2, 4],
    [5, 6],
    [20, 15],
  ],
  commonPractice(
    'Taken as Bartlett for want of a table of its own; Bartlett by Produce Facts, University of California, Davis, lower end of the ranges',
  ),
);

/** What stands in for a variety of which nothing is known. */
export const averageLateApple = milligrams(
  [
    [0, 3],
    [5, 6],
    [10, 9],
    [15, 15],
    [20, 20],
  ],
  commonPractice(
    'An average late apple, for want of a table of its own: fall cultivars of USDA Agriculture Handbook 66, 2016, from memory',
  ),
);

function milligrams(points: Points, source: Source): RespirationTable {
  return points.map(([temperature, value]) => ({
    at: tableTemperature(temperature, source),
    rate: referenceFigure(rateName(temperature), 'mg/kg/h', value, source),
  }));
}

function watts(points: Points, source: Source): RespirationTable {
  return points.map(([temperature, value]) => ({
    at: tableTemperature(temperature, source),
    rate: respirationFromHeat(
      rateName(temperature),
      referenceFigure(`heat of respiration in air at ${temperature} °C`, 'W/t', value, source),
    ),
  }));
}

function millilitres(points: Points, source: Source): RespirationTable {
  return points.map(([temperature, value]) => {
    const at = tableTemperature(temperature, source);
    const volume = referenceFigure(`CO2 given off at ${temperature} °C, mL/kg/h`, '1', value, source);
    return { at, rate: fromVolume(rateName(temperature), volume, at) };
  });
}

function fromVolume(name: string, volume: Figure, at: Figure<'degC'>): Figure<'mg/kg/h'> {
  const inputs = { volume, density: carbonDioxideDensity(at) };
  return compute(name, 'mg/kg/h', 'volume * density', inputs, (v) => v.volume * v.density);
}

function tableTemperature(temperature: number, source: Source): Figure<'degC'> {
  return referenceFigure('temperature of the table', 'degC', temperature, source);
}

function rateName(temperature: number): string {
  return `respiration in air at ${temperature} °C`;
}
