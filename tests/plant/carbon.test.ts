import { describe, expect, it } from 'vitest';
import {
  bedAir,
  breakthroughTime,
  equilibriumLoading,
  removalByCarbon,
  runsWithoutBreak,
} from '../../src/plant/carbon';
import { oxygenAtChange } from '../../src/plant/scrubber';
import { aScrubber, figure, known } from '../room/orchard';

const beds = (over: object = {}) => ({
  at: { file: 'test', start: 0, end: 0 },
  number: 2,
  carbon: figure('kg' as const, 190),
  adsorb: figure('min' as const, 8),
  regenerate: figure('min' as const, 8),
  voidVolume: figure('m3' as const, 0.6),
  ...over,
});

describe('activated carbon', () => {
  // Isotherm near 20 to 25 °C, from memory: middle of the ranges.
  it.each([
    [1, 3, 5],
    [3, 9, 14],
    [5, 14, 20],
    [15, 35, 50],
    [100, 85, 110],
  ])('at %s kPa is loaded with %s to %s g/kg', (level, least, most) => {
    const grams = equilibriumLoading(figure('%', level)).value;
    expect(grams).toBeGreaterThanOrEqual(least);
    expect(grams).toBeLessThanOrEqual(most);
  });

  it('is loaded all but in proportion to the level below 5 %', () => {
    const at = (level: number) => equilibriumLoading(figure('%', level)).value;
    expect(at(0.5) / at(1)).toBeCloseTo(0.5, 9);
    expect(at(4) / at(2)).toBeGreaterThan(1.75);
    expect(at(4) / at(2)).toBeLessThan(2);
    for (let level = 0.2; level < 20; level += 0.2) expect(at(level + 0.2)).toBeGreaterThan(at(level));
  });

  it('in a bed of 190 kg takes up 1.3 kg at 3 %, 236 kg in a day of 8-minute turns', () => {
    // 190 kg * 11.5 g/kg * 60 % = 1.311 kg; 180 turns.
    const scrubber = aScrubber({ beds: beds() });
    expect(known(removalByCarbon(scrubber, figure('%', 3)))).toBeCloseTo(1.311 * 180, 6);
    // At 260 kg a day: 1.311 / 260 * 1440 = 7.26 min.
    expect(known(breakthroughTime(scrubber, figure('%', 3)))).toBeCloseTo(7.261, 3);
  });

  it('runs without a break only with two beds and regeneration no longer than saturation', () => {
    expect(runsWithoutBreak(beds())).toBe(true);
    expect(runsWithoutBreak(beds({ regenerate: figure('min', 9) }))).toBe(false);
    expect(runsWithoutBreak(beds({ number: 1 }))).toBe(false);
  });

  it('carries in its void at every change', () => {
    // 0.6 m3 every 8 minutes.
    expect(bedAir(beds()).value).toBeCloseTo(4.5, 9);
    expect(bedAir(beds({ number: 1 })).value).toBeCloseTo(2.25, 9);
    expect(bedAir(undefined).value).toBe(0);
  });

  it('carries in only what is left of it where beds are rinsed', () => {
    // A fifth of 4.5 m3/h; of the 0.0945 m3 of oxygen that 0.5 m3 carries into a room at 2 %.
    expect(bedAir(beds({ rinsed: figure('%', 80) })).value).toBeCloseTo(0.9, 9);
    expect(oxygenAtChange(figure('m3', 0.5), figure('%', 2)).value).toBeCloseTo(0.0945, 9);
    expect(oxygenAtChange(figure('m3', 0.5), figure('%', 2), figure('%', 80)).value).toBeCloseTo(0.0189, 9);
  });
});
