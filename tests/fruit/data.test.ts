import { describe, expect, test } from 'vitest';
import { fruitData, regimeSuits } from '../../src/fruit/data';
import type { Figure } from '../../src/plan/figure';
import { expectFormulasHold, wholeChain } from './formulas';
import { given, ownRegime, ownVariety, planWith, present, written } from './plans';

const builtIn = fruitData(planWith());
const varieties = builtIn.varietyNames.map((name) => present(builtIn.variety(name), name));
const regimes = builtIn.regimeNames.map((name) => present(builtIn.regime(name), name));

/** Every figure anywhere inside a value. */
function figuresIn(value: unknown): Figure[] {
  if (typeof value !== 'object' || value === null) return [];
  if ('origin' in value && 'unit' in value) return [value as Figure];
  return Object.values(value).flatMap(figuresIn);
}

describe('built-in reference data', () => {
  test('knows at least 20 apples and 2 pears, each with a regime of its own', () => {
    expect(varieties.filter(({ fruit }) => fruit === 'apple').length).toBeGreaterThanOrEqual(20);
    expect(varieties.filter(({ fruit }) => fruit === 'pear').length).toBeGreaterThanOrEqual(2);
    for (const variety of varieties) {
      const usual = present(builtIn.regime(present(variety.regimes[0])));
      expect(usual.varieties).toContain(variety.name);
      expect(usual.oxygen, `${usual.name} is sealed`).toBeDefined();
      expect(
        variety.regimes.some((name) => name.endsWith('-air')),
        variety.name,
      ).toBe(true);
    }
  });

  test('every figure leads back to a named publication or says it is common practice', () => {
    for (const figure of [...varieties, ...regimes].flatMap(figuresIn)) {
      expectFormulasHold(figure);
      for (const step of wholeChain(figure)) {
        if (step.origin.kind !== 'reference') continue;
        expect(step.origin.source.citation.length, step.name).toBeGreaterThan(10);
        expect(['published', 'common practice', 'from memory']).toContain(step.origin.source.known);
      }
    }
  });

  test('tables of handbooks that were recalled are never called published', () => {
    for (const figure of [...varieties, ...regimes].flatMap(figuresIn).flatMap(wholeChain)) {
      if (figure.origin.kind !== 'reference') continue;
      const { citation, known } = figure.origin.source;
      if (/Watkins|Gross, Wang|ASHRAE|Hardenburg/.test(citation))
        expect(known, citation).not.toBe('published');
    }
  });

  test('a variety breathes faster the warmer it is, and keeps longer in store than in air', () => {
    for (const { name, respiration, storageLife, storageLifeInAir } of varieties) {
      for (const [index, { at, rate }] of respiration.entries()) {
        const colder = respiration[index - 1];
        if (!colder) continue;
        expect(at.value, name).toBeGreaterThan(colder.at.value);
        expect(rate.value, name).toBeGreaterThan(colder.rate.value);
      }
      expect(storageLife.value, name).toBeGreaterThan(storageLifeInAir.value);
    }
  });

  test('regimes stay within the limits of the varieties they are for, but for dynamic CA', () => {
    const riskyByDesign = ['gala-dynamic', 'cox-five-percent-carbon-dioxide', 'jonagold-handbook'];
    for (const regime of regimes.filter(({ name }) => !riskyByDesign.includes(name))) {
      for (const name of regime.varieties) {
        const variety = present(builtIn.variety(name));
        expect(regime.temperature.value, regime.name).toBeGreaterThanOrEqual(variety.leastTemperature.value);
        expect(regime.temperature.value, regime.name).toBeGreaterThan(variety.freezesAt.value);
        if (regime.oxygen) expect(regime.oxygen.value).toBeGreaterThanOrEqual(variety.leastOxygen.value);
        if (!regime.carbonDioxide) continue;
        expect(regime.carbonDioxide.value, regime.name).toBeLessThanOrEqual(variety.mostCarbonDioxide.value);
      }
    }
  });
});

describe('names', () => {
  test.each([
    ['red delicious', 'Delicious'],
    ['GALA', 'Gala'],
    ['Pink Lady', 'Cripps Pink'],
    ["Cox's Orange Pippin", "Cox's Orange Pippin"],
    ['Cox’s  Orange Pippin', "Cox's Orange Pippin"],
    ['Crispin', 'Mutsu'],
    ['Williams', 'Bartlett'],
  ])('%s is found as %s', (written, name) => {
    expect(builtIn.variety(written)?.name).toBe(name);
  });

  test('an unknown name is undefined, not a guess', () => {
    expect(builtIn.variety('Galla')).toBeUndefined();
    expect(builtIn.regime('gala-stanard')).toBeUndefined();
  });
});

describe("the planner's own values", () => {
  test('lie over the built-in ones and keep their place in the plan', () => {
    const life = written(240, 'days');
    const { variety } = fruitData(planWith([ownVariety('Red Delicious', { storageLife: life })]));
    const delicious = present(variety('Delicious'));
    expect(delicious.storageLife).toBe(life);
    expect(delicious.storageLifeRange).toBeUndefined();
    expect(delicious.leastExitFirmness.origin).toEqual(
      present(builtIn.variety('Delicious')).leastExitFirmness.origin,
    );
  });

  test('an own variety takes everything from the one it is like, its regimes too', () => {
    const own = ownVariety('Lantern', { like: given('gala') });
    const data = fruitData(planWith([own]));
    const lantern = present(data.variety('Lantern'));
    expect(lantern).toEqual({ ...present(builtIn.variety('Gala')), name: 'Lantern' });
    expect(regimeSuits(present(data.regime('gala-standard')), lantern)).toBe(true);
    expect(regimeSuits(present(data.regime('fuji-standard')), lantern)).toBe(false);
    expect(data.varietyNames).toContain('Lantern');
  });

  test('an own variety like nothing is an average late apple by common practice', () => {
    const own = present(fruitData(planWith([ownVariety('Lantern', {})])).variety('lantern'));
    expect(own.name).toBe('Lantern');
    const known = figuresIn(own)
      .flatMap(wholeChain)
      // What is the same for every apple comes from its handbooks.
      .filter(({ name }) => !/in store|specific heat|density|heat of respiration/.test(name))
      .map(({ origin }) => (origin.kind === 'reference' ? origin.source.known : 'computed'));
    expect(new Set(known)).toEqual(new Set(['common practice']));
  });

  test('varieties like each other in a circle end at the built-in or average ones', () => {
    const [a, b] = [ownVariety('A', { like: given('B') }), ownVariety('B', { like: given('A') })];
    expect(fruitData(planWith([a, b])).variety('A')?.name).toBe('A');
    const itself = ownVariety('Gala', { like: given('Gala'), leastOxygen: written(1.2, '%') });
    expect(fruitData(planWith([itself])).variety('Gala')?.leastOxygen.value).toBe(1.2);
  });

  test('a share of respiration in store keeps the range of the sources in proportion', () => {
    const own = ownVariety('Gala', { respirationInStore: written(0.7, '1') });
    const { respirationInStore } = present(fruitData(planWith([own])).variety('Gala'));
    expect(respirationInStore.low.value).toBeCloseTo(0.6);
    expect(respirationInStore.high.value).toBe(1);
    expectFormulasHold(respirationInStore.high);
  });

  test('a respiration table in any order is put in order, and rates of nothing are left out', () => {
    const point = (at: number, rate: number) => ({ at: written(at, 'degC'), rate: written(rate, 'mg/kg/h') });
    const own = ownVariety('Gala', { respiration: [point(10, 12), point(0, 4), point(0, 5), point(5, 0)] });
    const { respiration } = present(fruitData(planWith([own])).variety('Gala'));
    expect(respiration.map(({ at, rate }) => [at.value, rate.value])).toEqual([
      [0, 4],
      [10, 12],
    ]);
  });

  test('an own regime takes what it leaves out from the one it is like', () => {
    const own = ownRegime('gala-late', {
      like: given('gala-standard'),
      oxygen: written(1.2, '%'),
      varieties: [given('royal gala')],
      storageLife: written(213, 'days'),
    });
    const data = fruitData(planWith([], [own]));
    const late = present(data.regime('gala-late'));
    expect(late.varieties).toEqual(['Gala']);
    expect(late.oxygen?.value).toBe(1.2);
    expect(late.carbonDioxide?.value).toBe(1.5);
    expect(late.storageLifeRange).toBeUndefined();
    expect(data.regimeNames).toContain('gala-late');
    const suited = fruitData(planWith([ownVariety('Gala', {})], [own])).variety('Gala');
    expect(suited?.regimes).toContain('gala-late');
  });

  test('an own regime like nothing, with no oxygen, is an air room', () => {
    const own = present(fruitData(planWith([], [ownRegime('cellar', {})])).regime('cellar'));
    expect(own.oxygen).toBeUndefined();
    expect(own.temperature.value).toBe(1);
    expect(own.varieties).toEqual([]);
  });
});
