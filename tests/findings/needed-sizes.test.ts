import { describe, expect, it } from 'vitest';
import { apartShower, perCentAbove } from '../../src/findings/say';
import { showNeeded } from '../../src/plan/display';
import { referenceFigure, type Unit } from '../../src/plan/figure';
import { findingsOnExample, readPage, seasonOfExample } from './page';

/** A size that a finding says is enough is enough as it is told: rounded up at its last digit, in either system of units. */

const SOURCE = { citation: 'A test', known: 'common practice' } as const;
const sized = (value: number, unit: Unit) => referenceFigure('size', unit, value, SOURCE);

describe('a size that is needed', () => {
  it.each<[number, Unit, string, string]>([
    [19.04, 'kW', '19.1 kW', '5.5 TR'],
    [19, 'kW', '19.0 kW', '5.5 TR'],
    [12.02, 'm3/h', '12.1 m\u00b3/h', '7.1 ft\u00b3/min'],
    [6.01, 'kg/day', '6.1 kg/day', '13.3 lb/day'],
    [20.2, 'kg', '21 kg', '45 lb'],
  ])('of %d %s is told as %s, or as %s', (value, unit, metric, us) => {
    expect(showNeeded(sized(value, unit), { system: 'metric', currency: 'EUR' })).toBe(metric);
    expect(showNeeded(sized(value, unit), { system: 'us', currency: 'USD' })).toBe(us);
  });
});

/** The example's cooler, a little larger until its load is near a tenth, and the units the plan is told in. */
function cooler(kilowatts: string, units: 'metric' | 'us'): string {
  const [example = ''] = readPage('cooling-overloaded').wrong;
  return `${example.replace('capacity: 8 kW', `capacity: ${kilowatts}`)}season:
  starts: 2026-08-31
  ends: 2027-06-27
  units: ${units}
`;
}

const overloaded = (example: string) =>
  findingsOnExample(example).find(({ code }) => code === 'cooling-overloaded')?.message;

describe('a cooler that would take the heat of filling', () => {
  it.each<['metric' | 'us', RegExp]>([
    ['metric', /A cooler of ([\d.]+ kW) would take it/],
    ['us', /A cooler of ([\d.]+ TR) would take it/],
  ])('is enough as told in %s units, and a tenth less is not', (units, told) => {
    const [, size = ''] = told.exec(overloaded(cooler('8 kW', units)) ?? '') ?? [];
    const [value = '', unit] = size.split(' ');
    expect(overloaded(cooler(size, units))).toBeUndefined();
    expect(overloaded(cooler(`${(Number(value) - 0.1).toFixed(1)} ${unit}`, units))).toBeDefined();
  });

  it('is told apart from a cooler that is only just too small', () => {
    const season = seasonOfExample(cooler('8 kW', 'metric'));
    const peak = season.filled.get('R1-gala')?.peakCooling?.value ?? 0;
    const message = overloaded(cooler(`${peak - 0.004} kW`, 'metric')) ?? '';
    const [, heat, takes] = /at most ([\d.]+) kW, and the cooler of R1 takes ([\d.]+) kW/.exec(message) ?? [];
    expect(Number(heat)).toBeGreaterThan(Number(takes));
  });
});

it('what is over reads as over', () => {
  const season = seasonOfExample(cooler('8 kW', 'metric'));
  expect(apartShower(season)(sized(8.83, 'kg/day'), sized(8.79, 'kg/day'))).toEqual([
    '8.83 kg/day',
    '8.79 kg/day',
  ]);
  expect(perCentAbove(100.3, 100)).toBe('100.3 %');
  expect(perCentAbove(112.3, 100)).toBe('112 %');
});
