import { describe, expect, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import type { Figure } from '../../src/plan/figure';
import { planWith, present } from '../fruit/plans';
import { check } from './published';

const data = fruitData(planWith());
const regime = (name: string) => present(data.regime(name), name);
const variety = (name: string) => present(data.variety(name), name);

describe('holding temperature', () => {
  const source =
    'Prange and Wright 2023, A Review of Storage Temperature Recommendations for Apples and Pears, Foods 12(3):466, https://doi.org/10.3390/foods12030466';

  // Mean of the recommendations for CA, °C.
  const MEANS: readonly [string, number][] = [
    ['mutsu', 0.0],
    ['delicious', 0.22],
    ['granny-smith', 0.47],
    ['lady-williams', 0.5],
    ['spartan', 0.58],
    ['gala', 0.61],
    ['golden-delicious', 0.62],
    ['stayman', 0.62],
    ['fuji', 0.63],
    ['rome', 0.65],
    ['northern-spy', 0.67],
    ['braeburn', 0.74],
    ['jonathan', 0.75],
    ['cripps-red', 0.75],
    ['jonagold', 0.84],
    ['shampion', 0.84],
    ['ligol', 0.92],
    ['gloster', 0.94],
    ['ladina', 1.0],
    ['topaz', 1.0],
    ['cameo', 1.13],
    ['cortland', 1.16],
    ['ambrosia', 1.2],
    ['rubens', 1.22],
    ['elstar', 1.23],
    ['winesap', 1.25],
    ['pinova', 1.25],
    ['goldrush', 1.38],
    ['scilate', 1.5],
    ['cripps-pink', 1.67],
    ['idared', 1.77],
    ['scifresh', 1.85],
    ['empire', 2.12],
    ['mcintosh', 2.79],
    ['nicoter', 2.88],
    ['honeycrisp', 3.0],
    ['cox', 3.5],
    ['belle-de-boskoop', 3.96],
    ['lobo', 4.12],
    ['bramley', 4.38],
  ];

  // 63 % of the recommendations give the same temperature for air and for CA.
  test.each(MEANS)('of %s is %d °C', (name, expected) => {
    const { temperature } = regime(`${name}-air`);
    check(
      {
        id: `temperature-${name}`,
        what: `Mean recommended temperature, ${name}`,
        source,
        known: 'published',
        expected,
        unit: '°C',
        tolerance: 0.005,
      },
      temperature.value,
    );
    expect(temperature.origin).toMatchObject({ source: { known: 'published' } });
  });
});

/** [id, what, source, expected, unit, tolerance, figure] */
type Row = readonly [string, string, string, number, string, number, Figure | undefined];

describe('atmospheres and limits', () => {
  const UC_DAVIS = 'Mitcham, Crisosto and Kader, Produce Facts: Apple, University of California, Davis';
  const WSU =
    'Washington State University, https://treefruit.wsu.edu/article/honeycrisp-storage-recommendations-revisited';
  const CORNELL =
    'Cornell University, Eastern New York Commercial Horticulture, https://blogs.cornell.edu/enychp';
  const BRAZIL = 'Scientia Agricola 2015, S0103-90162015000100028';
  const FUJI = 'Argenta and others 2000, Postharvest Biology and Technology 20:221-229';
  const DENG = 'Deng and others 1997, University of California Postharvest Horticulture Series 16:156-161';
  const COX = 'NIAB Apple Best Practice Guide, Cox’s Orange Pippin and clones';
  const CHU = 'Chu 1995, HortScience 30(4):792C';
  const LAU = 'Lau 1990, HortScience 25(11):1412';
  const PEARS = 'Produce Facts: Pear, University of California, Davis, uid=45';
  const WFLO = 'World Food Logistics Organization, Commodity Storage Manual: Apples, 2008';

  const rows: readonly Row[] = [
    ['gala-oxygen', 'Oxygen for Gala, 1.5 to 2', UC_DAVIS, 1.75, '%', 0.25, regime('gala-standard').oxygen],
    [
      'gala-dynamic-oxygen',
      'Oxygen for Gala in dynamic CA',
      CORNELL,
      0.5,
      '%',
      0.05,
      regime('gala-dynamic').oxygen,
    ],
    [
      'gala-new-york-degrees',
      'Gala in New York, 38 °F',
      CORNELL,
      3.3,
      '°C',
      0.05,
      regime('gala-new-york').temperature,
    ],
    [
      'gala-brazil-oxygen',
      'Oxygen for Royal Gala, 1.0 to 1.2',
      BRAZIL,
      1.1,
      '%',
      0.1,
      regime('gala-low-oxygen').oxygen,
    ],
    [
      'honeycrisp-warm-hold',
      'Conditioning of Honeycrisp, 50 °F',
      WSU,
      10,
      '°C',
      0.05,
      regime('honeycrisp-conditioned').conditioning?.temperature,
    ],
    [
      'honeycrisp-warm-days',
      'Days of conditioning',
      WSU,
      7,
      'days',
      0,
      regime('honeycrisp-conditioned').conditioning?.lasts,
    ],
    [
      'honeycrisp-degrees',
      'Honeycrisp after it, 37 to 39 °F',
      WSU,
      3.33,
      '°C',
      0.56,
      regime('honeycrisp-conditioned').temperature,
    ],
    [
      'honeycrisp-carbon-dioxide',
      'Carbon dioxide for Honeycrisp at most',
      WSU,
      1,
      '%',
      0.05,
      variety('Honeycrisp').mostCarbonDioxide,
    ],
    ['fuji-oxygen', 'Oxygen for Fuji', FUJI, 1.5, '%', 0.05, regime('fuji-standard').oxygen],
    ['cox-oxygen', 'Oxygen for Cox to March', COX, 1.2, '%', 0.05, regime('cox-standard').oxygen],
    ['bartlett-oxygen', 'Oxygen for Bartlett', CHU, 2.5, '%', 0.05, regime('bartlett-standard').oxygen],
    [
      'least-oxygen-gala',
      'Respiratory breakpoint of Gala',
      DENG,
      0.65,
      '%',
      0.005,
      variety('Gala').leastOxygen,
    ],
    [
      'least-oxygen-golden',
      'Respiratory breakpoint of Golden Delicious',
      DENG,
      0.75,
      '%',
      0.005,
      variety('Golden Delicious').leastOxygen,
    ],
    [
      'least-oxygen-delicious',
      'Respiratory breakpoint of Starkrimson Delicious',
      DENG,
      0.8,
      '%',
      0.005,
      variety('Red Delicious').leastOxygen,
    ],
    ['least-oxygen-spartan', 'Oxygen that Spartan bore', LAU, 1, '%', 0.05, variety('Spartan').leastOxygen],
    ['freezing-apples', 'Freezing point of apples', WFLO, -1.7, '°C', 0.05, variety('Fuji').freezesAt],
    [
      'freezing-granny-smith',
      'Freezing point of Granny Smith',
      UC_DAVIS,
      -1.5,
      '°C',
      0.05,
      variety('Granny Smith').freezesAt,
    ],
    [
      'freezing-winter-pears',
      'Freezing point of winter pears, -1.5 to -2',
      PEARS,
      -1.5,
      '°C',
      0.05,
      variety('Anjou').freezesAt,
    ],
  ];

  test.each(rows)('%s', (id, what, source, expected, unit, tolerance, figure) => {
    check({ id, what, source, known: 'published', expected, unit, tolerance }, present(figure, what).value);
  });

  test('Anjou keeps oxygen a point above carbon dioxide (Washington State University, J8I3A)', () => {
    const { oxygen, carbonDioxide } = regime('anjou-standard');
    expect(present(oxygen).value - present(carbonDioxide).value).toBeGreaterThanOrEqual(1);
  });
});
