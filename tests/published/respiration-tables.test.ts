import { describe, test } from 'vitest';
import { carbonDioxideDensity } from '../../src/fruit/conversions';
import { fruitData } from '../../src/fruit/data';
import { respirationHeat, respirationInAir } from '../../src/fruit/respiration';
import type { Figure } from '../../src/plan/figure';
import { planWith, present, written } from '../fruit/plans';
import { check, type PublishedCheck } from './published';

const data = fruitData(planWith());

function inAir(variety: string, temperature: number): Figure<'mg/kg/h'> {
  return respirationInAir(present(data.variety(variety)), written(temperature, 'degC'));
}

type Cells = readonly (readonly [variety: string, temperature: number, expected: number])[];
type Common = Pick<PublishedCheck, 'source' | 'known' | 'unit' | 'tolerance'>;

/** Holds each cell of a printed table against what the tool takes for that variety at that temperature. */
function holdsTable(
  note: string,
  cells: Cells,
  common: Common,
  value: (rate: Figure<'mg/kg/h'>, at: number) => number,
) {
  test.each(cells)(`%s at %d °C: %d ${common.unit}`, (name, temperature, expected) => {
    check(
      {
        ...common,
        id: `rate-${name.toLowerCase().replace(' ', '-')}-${temperature}`,
        what: `Respiration of ${name} in air at ${temperature} °C${note}`,
        expected,
      },
      value(inAir(name, temperature), temperature),
    );
  });
}

/** A row of a table: the same variety at several temperatures. */
function row(variety: string, ...cells: (readonly [number, number])[]): Cells {
  return cells.map(([temperature, expected]) => [variety, temperature, expected] as const);
}

describe('by volume, the low end of the ranges: fruit not yet ripe', () => {
  const inMillilitres = (rate: Figure<'mg/kg/h'>, at: number) =>
    rate.value / carbonDioxideDensity(written(at, 'degC')).value;
  const common = { known: 'published', unit: 'mL/kg/h', tolerance: 1e-9 } as const;
  const apples = {
    ...common,
    source: 'Mitcham, Crisosto and Kader, Produce Facts: Apple, University of California, Davis',
  };
  const pears = {
    ...common,
    source:
      'Mitcham, Crisosto and Kader, Produce Facts: Pear, Bartlett, University of California, Davis, https://postharvest.ucdavis.edu/Commodity_Resources/Fact_Sheets/Datastores/Fruit_English/index.cfm?uid=46&ds=798',
  };
  holdsTable(', low end', row('Golden Delicious', [0, 3], [5, 4], [10, 7], [20, 15]), apples, inMillilitres);
  holdsTable(', low end', row('Red Delicious', [0, 2], [5, 3], [10, 5], [20, 12]), apples, inMillilitres);
  holdsTable(', low end', row('Bartlett', [0, 2], [2, 4], [5, 6], [20, 15]), pears, inMillilitres);
});

describe('by mass', () => {
  const handbook = {
    source: 'USDA Agriculture Handbook 66, 2016, summary table of respiration rates',
    known: 'from memory',
    unit: 'mg/kg/h',
    tolerance: 1e-9,
  } as const;
  const inMilligrams = (rate: Figure<'mg/kg/h'>) => rate.value;
  const fall = row('Fuji', [0, 3], [5, 6], [10, 9], [15, 15], [20, 20]);
  const summer = row('Paulared', [0, 5], [5, 8], [10, 17], [15, 25], [20, 31]);
  holdsTable(', as a fall cultivar', fall, handbook, inMilligrams);
  holdsTable(', as a summer cultivar', summer, handbook, inMilligrams);
});

describe('as heat', () => {
  const ashrae = {
    source: 'ASHRAE Handbook, Refrigeration, Thermal properties of foods, heat of respiration',
    known: 'from memory',
    unit: 'W/t',
  } as const;
  const inWatts = (rate: Figure<'mg/kg/h'>) => respirationHeat(rate).value;
  const exact = { ...ashrae, tolerance: 1e-9 };
  holdsTable('', row('Jonathan', [0, 11.6], [5, 17.5]), exact, inWatts);
  holdsTable('', row('McIntosh', [0, 10.7], [5, 16]), exact, inWatts);
  // The average of many apples: the middle of each range, and as far to either side as the range goes.
  for (const [temperature, low, high] of [
    [0, 6.8, 12.1],
    [5, 15, 21.3],
    [15, 40.3, 91.7],
    [20, 50, 103.8],
  ] as const) {
    const range = { ...ashrae, tolerance: (high - low) / 2 };
    const note = `, average of many (${low} to ${high})`;
    holdsTable(note, [['Gala', temperature, (low + high) / 2]], range, inWatts);
  }
});

test('the load of late apples on scrubbers lies where it is usually planned', () => {
  const share = present(data.variety('Fuji')).respirationInStore.expected.value;
  check(
    {
      id: 'carbon-dioxide-planned',
      what: 'CO2 of late apples in CA at 1.5 °C (0.03 to 0.05)',
      source:
        'Planning range at 0 to 3 °C; fall cultivars of USDA Agriculture Handbook 66 at 0.35 to 0.5 of air',
      known: 'from memory',
      expected: 0.04,
      unit: 'kg/t/day',
      tolerance: 0.01,
    },
    inAir('Fuji', 1.5).value * share * 0.024,
  );
});
