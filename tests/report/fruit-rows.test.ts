import { describe, expect, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { readPlan } from '../../src/plan/read';
import { builtInFor } from '../../src/report/built-in-for';
import { regimeRows, varietyRows } from '../../src/report/fruit-rows';

const own = `lotwright: 1
regimes:
  gala-own:
    varieties: [Gala]
    temperature: 0.8 °C
    oxygen: 1.5 %
    carbon-dioxide: 1.8 %
    storage-life: 7 months
    source: own records
`;
const builtIn = fruitData(readPlan([]));
const withOwn = fruitData(readPlan([{ path: 'a.lotplan.yaml', text: own }]));
const variety = (name: string) => varietyRows(builtIn).find((row) => row.name === name);
const regime = (name: string, fruit = builtIn) => regimeRows(fruit).find((row) => row.name === name);

describe('what is built in', () => {
  test('varieties by name, with their other names, regimes and life', () => {
    expect(variety('Cripps Pink')?.aliases).toEqual(['Pink Lady']);
    expect(variety('Idared')?.regimes).toEqual(['idared-standard', 'idared-air']);
    // University of California, Davis, Produce Facts: Gala keeps 4 to 5 months in controlled atmosphere.
    const life = variety('Gala')?.lifeInStore;
    expect(life?.known).toBe('published');
    expect([life?.shortest, life?.longest].map((days) => Math.round(((days ?? 0) * 12) / 365.2425))).toEqual([
      4, 5,
    ]);
  });

  test('a value put together from several is known as well as the least known of them', () => {
    // Temperatures of Prange and Wright 2023 are published, the levels for the variety are common practice.
    expect(regime('ambrosia-standard')?.known).toBe('common practice');
    expect(regime('ambrosia-air')?.known).toBe('published');
  });

  test("the planner's own are listed too", () => {
    expect(regime('gala-own')).toBeUndefined();
    expect(regime('gala-own', withOwn)).toMatchObject({ varieties: ['Gala'], known: 'plan' });
    expect(varietyRows(withOwn).find(({ name }) => name === 'Gala')?.regimes).toContain('gala-own');
  });
});

describe('a name that nothing has', () => {
  test.each([
    ['idared-long', 'Idared'],
    ['pink lady ca', 'Cripps Pink'],
    ['Golden Delicious air', 'Golden Delicious'],
    ['braebrun-standard', 'Braeburn'],
    ['galla', 'Gala'],
  ])('%s speaks of %s', (words, name) => {
    expect(builtInFor(builtIn, words)).toEqual({ variety: name, regimes: variety(name)?.regimes });
  });

  test('or of no variety at all', () => {
    expect(builtInFor(builtIn, 'R17')).toBeUndefined();
  });
});
