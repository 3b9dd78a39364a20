import { describe, expect, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { handbook66 } from '../../src/fruit/varieties/handbook-66';
import { roomKeeping } from '../../src/keeping/room-keeping';
import type { Figure } from '../../src/plan/figure';
import { planWith, present } from '../fruit/plans';
import { day, roomOf } from '../keeping/rooms';
import { check } from './published';

/**
 * Every variety and regime for which a publication states a length: the median life that a lot fit for long-term
 * storage is given in a room of that regime, filled in the usual days, lies within the range stated.
 */

const MONTH = 365.2425 / 12;
const data = fruitData(planWith());

/** A lot as firm and starchy as there are, picked and cooled in the usual days. */
function medianMonths(variety: string, regime: string): number {
  const sealed = present(data.regime(regime), regime).oxygen ? '2026-09-08' : null;
  const { plan, filled } = roomOf({ regime, sealed, lots: [{ variety, firmnessLbf: 20, starch: 1 }] });
  const [lot] = roomKeeping(plan, filled).lots;
  if (present(data.variety(variety)).maturityByTerm) expect(lot?.term).toBe('long');
  return present(lot).storageLife.value / MONTH;
}

const UC_DAVIS = 'Mitcham, Crisosto and Kader, Produce Facts: Apple, University of California, Davis';
const CORNELL = 'Cornell University, Eastern New York Commercial Horticulture, Gala storage, 2024 and 2025';
const LAU = 'Lau 1983, low oxygen in British Columbia';
const MICHIGAN =
  'Honeycrisp storage for 2011, Fruit Growers News; Crucial tips to store Honeycrisp, Good Fruit Grower';
const DRAKE = 'Drake and Kupferman 2000, Journal of the American Pomological Society 54(4):213';
const CHU = 'Chu 1995, HortScience 30(4):792C';
const KANSAS = 'Kansas State University Extension (Upham), Storing apples';
const IOWA = 'Iowa State University Extension, storage in cold air';
const DAYS = 1 / MONTH;

// Variety, regime, shortest and longest of the source in months, source. One value is a range of half its last digit.
const REGIONS = [
  ['Gala', 'gala-standard', 4, 5, UC_DAVIS],
  ['Gala', 'gala-new-york', 0, 4, `${CORNELL} (at most 4 months)`],
  [
    'Gala',
    'gala-low-oxygen',
    0,
    7,
    'Royal Gala in controlled atmosphere, Scientia Agricola 2015 (to 7 months)',
  ],
  ['Golden Delicious', 'golden-delicious-standard', 9.5, 10.5, UC_DAVIS],
  ['Golden Delicious', 'golden-delicious-air', 5.5, 6.5, UC_DAVIS],
  ['Red Delicious', 'delicious-standard', 9.5, 10.5, UC_DAVIS],
  ['Red Delicious', 'delicious-california-air', 5.5, 6.5, UC_DAVIS],
  ['Golden Delicious', 'delicious-golden-shared', 6, 10, LAU],
  ['Delicious', 'delicious-golden-shared', 6, 10, LAU],
  ['Honeycrisp', 'honeycrisp-air', 4, 5, `${MICHIGAN} (air 4 to 5 months best)`],
  ['Honeycrisp', 'honeycrisp-michigan', 6, 9, `${MICHIGAN} (later protocols to 9 months)`],
  ['Jonagold', 'jonagold-standard', 119.5 * DAYS, 120.5 * DAYS, `${DRAKE} (120 days)`],
  ['Jonagold', 'jonagold-air', 49.5 * DAYS, 50.5 * DAYS, `${DRAKE} (50 days)`],
  [
    'Fuji',
    'fuji-standard',
    7.5,
    8.5,
    'Argenta and others 2000, Postharvest Biology and Technology 20:221-229',
  ],
  ['Bosc', 'bosc-standard', 5.5, 6.5, 'Oregon trials, −1 °C'],
  ['Bartlett', 'bartlett-standard', 3.5, 4.5, CHU],
  ['Bartlett', 'bartlett-low-oxygen', 3.5, 4.5, CHU],
  ['Bartlett', 'bartlett-air', 1.5, 2.5, CHU],
  ['Jonathan', 'jonathan-air', 119.5 * DAYS, 120.5 * DAYS, `${KANSAS} (120 days)`],
  ['Paulared', 'paulared-air', 89.5 * DAYS, 90.5 * DAYS, `${KANSAS} (90 days)`],
  ['Winesap', 'winesap-air', 219.5 * DAYS, 220.5 * DAYS, `${KANSAS} (220 days)`],
  ['McIntosh', 'mcintosh-air', 3, 4, IOWA],
  ['Red Delicious', 'delicious-air', 3, 5, IOWA],
] as const;

describe('lengths by region', () => {
  test.each(REGIONS)('%s in %s: %d to %d months', (variety, regime, shortest, longest, source) => {
    check(
      {
        id: `life-${variety.toLowerCase().replace(' ', '-')}-in-${regime}`,
        what: `Median life of long-term ${variety} in ${regime}, ${round(shortest)} to ${round(longest)}`,
        source,
        known: 'published',
        expected: (shortest + longest) / 2,
        unit: 'months',
        tolerance: (longest - shortest) / 2,
      },
      medianMonths(variety, regime),
    );
  });

  test('where the source says "at most", all of it is used', () => {
    expect(medianMonths('Gala', 'gala-new-york')).toBeCloseTo(4, 6);
    expect(medianMonths('Gala', 'gala-low-oxygen')).toBeCloseTo(7, 6);
  });
});

/** Where a figure comes from, and what it was computed from. */
function sourcesOf({ origin }: Figure): string[] {
  if (origin.kind === 'reference') return [origin.source.known];
  return origin.kind === 'computed' ? Object.values(origin.inputs).flatMap(sourcesOf) : [];
}

describe('every length that is published', () => {
  const CHECKED = new Set<string>(REGIONS.map(([, regime]) => regime));

  test('of the regimes built in is checked above', () => {
    const published = data.regimeNames.filter((name) => {
      const life = data.regime(name)?.storageLife;
      return life && sourcesOf(life).includes('published');
    });
    expect(published.length).toBeGreaterThan(15);
    expect(published.filter((name) => !CHECKED.has(name))).toEqual([]);
  });
});

describe('the opening window at even chances', () => {
  // Sunday of week w is day 7 w + 3; the room must be packed out by then.
  const sunday = (week: number) => 7 * week + 3;

  test.each(REGIONS)('of %s in %s ends within %d to %d months', (variety, regime, shortest, longest) => {
    const sealed = present(data.regime(regime), regime).oxygen ? '2026-09-08' : null;
    // Drenched, since scald would end some of them sooner; the sources speak of sound fruit.
    const lots = [{ variety, firmnessLbf: 30, starch: 1, treatments: ['antioxidant'] as const }];
    const { plan, filled } = roomOf({
      regime,
      sealed,
      lots,
      confidence: 50,
      seasonEnds: '2028-08-01',
      daysToEmpty: 7,
    });
    const { window } = roomKeeping(plan, filled);
    const { week, limit } = present(window).latest;
    expect(limit).toBe('storage life');
    const picked = day('2026-09-01');
    expect(sunday(week) - picked).toBeLessThanOrEqual(longest * MONTH);
    expect(sunday(week + 1) - picked).toBeGreaterThanOrEqual(shortest * MONTH);
  });
});

describe('lengths of the handbook', () => {
  const HANDBOOK = 'Watkins, Kupferman and Rosenberger, Apple, in USDA Agriculture Handbook 66, 2016';
  // Written out here a second time, so that a slip in the tool's table is found.
  const TABLE = [
    ['Braeburn', 'braeburn-air', 3, 4, 'braeburn-standard', 8, 10],
    ['Cortland', 'cortland-air', 2, 3, 'cortland-standard', 4, 6],
    ['Delicious', 'delicious-handbook-air', 3, 3, 'delicious-handbook', 12, 12],
    ['Empire', 'empire-air', 2, 3, 'empire-standard', 5, 10],
    ['Fuji', 'fuji-air', 4, 4, 'fuji-handbook', 12, 12],
    ['Gala', 'gala-air', 2, 3, 'gala-handbook', 5, 6],
    ['Golden Delicious', 'golden-delicious-handbook-air', 3, 4, 'golden-delicious-handbook', 8, 10],
    ['Granny Smith', 'granny-smith-air', 3, 4, 'granny-smith-standard', 10, 11],
    ['Idared', 'idared-air', 3, 4, 'idared-standard', 7, 9],
    ['Jonagold', 'jonagold-handbook-air', 2, 2, 'jonagold-handbook', 5, 7],
    ['McIntosh', 'mcintosh-handbook-air', 2, 3, 'mcintosh-standard', 5, 7],
    ['Mutsu', 'mutsu-air', 3, 4, 'mutsu-standard', 6, 8],
    ['Rome', 'rome-air', 3, 4, 'rome-standard', 7, 9],
    ['Spartan', 'spartan-air', 3, 4, 'spartan-standard', 6, 8],
    ['Stayman', 'stayman-air', 2, 3, 'stayman-standard', 5, 7],
  ] as const;

  test('every variety of the handbook is here', () => {
    expect(TABLE.map(([name]) => name)).toEqual(Object.keys(handbook66));
  });

  const rows = TABLE.flatMap(([name, air, airLow, airHigh, store, low, high]) => [
    [name, air, airLow, airHigh] as const,
    [name, store, low, high] as const,
  ]);
  test.each(rows)('%s in %s: %d to %d months', (variety, regime, shortest, longest) => {
    check(
      {
        id: `handbook-life-${variety.toLowerCase().replace(' ', '-')}-in-${regime}`,
        what: `Median life of long-term ${variety} in ${regime}, ${shortest} to ${longest}`,
        source: HANDBOOK,
        known: 'from memory',
        expected: (shortest + longest) / 2,
        unit: 'months',
        tolerance: Math.max((longest - shortest) / 2, 1e-6),
      },
      medianMonths(variety, regime),
    );
  });
});

function round(months: number): number {
  return Math.round(months * 100) / 100;
}
