import { describe, expect, test } from 'vitest';
import { type FirmnessSample, fitFirmness } from '../../src/learning/firmness';
import { normalFrom, randomFrom } from './simulated-room';

const LOTS = 5000;
const DAYS_A_MONTH = 30.44;

/** What fruit of a variety loses by a day, N: some while its room is filled, then so much a month. */
function usualLoss(days: number): number {
  return 4 * Math.min(1, days / 14) + (1.5 * Math.max(0, days - 14)) / DAYS_A_MONTH;
}

/** A lot as it truly is, and what a laboratory finds of it: fruit by fruit, out of bins that differ. */
function drawnLot(seed: number) {
  const random = randomFrom(seed);
  const normal = normalFrom(random);
  const tested = 70 + 15 * random();
  const truth = { atHarvest: tested + 2.5 * normal(), softening: 1 + 0.2 * normal() };
  const firmnessOn = (days: number) => truth.atHarvest - truth.softening * usualLoss(days);
  const tests = 1 + Math.floor(6 * random());
  const samples = Array.from({ length: tests }, (_, index): FirmnessSample => {
    const days = 20 + 30 * index + Math.floor(25 * random());
    const count = [10, 10, 20, 40][Math.floor(4 * random())] ?? 10;
    const ofBins = 1.5 * normal();
    const fruit = Array.from({ length: count }, () => firmnessOn(days) + ofBins + 6.3 * normal());
    const mean = fruit.reduce((sum, one) => sum + one, 0) / count;
    const square = fruit.reduce((sum, one) => sum + (one - mean) ** 2, 0) / (count - 1);
    const tells = random() < 0.5;
    return {
      days,
      firmness: mean,
      fruit: count,
      lost: usualLoss(days),
      ...(tells ? { spread: Math.sqrt(square) } : {}),
    };
  });
  return { tested, truth, firmnessOn, samples };
}

describe('firmness of simulated lots', () => {
  const lots = Array.from({ length: LOTS }, (_, seed) => {
    const lot = drawnLot(6151 * (seed + 1));
    const fit = fitFirmness({ atHarvest: lot.tested }, lot.samples);
    if (!fit) throw new Error('there are samples');
    return { ...lot, fit };
  });
  const share = (isWithin: (lot: (typeof lots)[number]) => boolean) => lots.filter(isWithin).length / LOTS;
  const within = (truth: number, { low, high }: { low: number; high: number }) =>
    low <= truth && truth <= high;

  test('lies within its stated interval at least 93 times in 100', () => {
    expect(share(({ truth, fit }) => within(truth.atHarvest, fit.atHarvest))).toBeGreaterThan(0.93);
    expect(share(({ truth, fit }) => within(truth.softening, fit.softening))).toBeGreaterThan(0.93);
    for (const days of [60, 150, 240])
      expect(
        share(({ firmnessOn, fit }) => within(firmnessOn(days), fit.firmnessOnceLost(usualLoss(days)))),
      ).toBeGreaterThan(0.93);
  });

  test('is known the better the more samples there are', () => {
    const width = (count: number) => {
      const of = lots.filter(({ samples }) => samples.length === count);
      return of.reduce((sum, { fit: { softening } }) => sum + softening.high - softening.low, 0) / of.length;
    };
    expect(width(1)).toBeLessThan(4 * 0.2);
    expect(width(6)).toBeLessThan(width(1));
  });

  test('is told best where the doubt is least, and no surer before or after', () => {
    for (const { fit } of lots) {
      const half = (lost: number) => {
        const { low, high } = fit.firmnessOnceLost(lost);
        return (high - low) / 2 / 1.959964;
      };
      expect(half(fit.knownBestAt)).toBeCloseTo(fit.spread, 6);
      const away = fit.knownBestAt + 5;
      expect(half(away)).toBeCloseTo(
        Math.hypot(fit.spread, 5 * fit.softeningSpread * fit.softening.value),
        6,
      );
      expect(half(fit.knownBestAt - 5)).toBeGreaterThan(fit.spread);
    }
  });
});

test('one small sample moves the course little, many move it to where they are', () => {
  const sample = (days: number): FirmnessSample => ({
    days,
    firmness: 80 - 2 * usualLoss(days),
    fruit: 10,
    lost: usualLoss(days),
  });
  const few = fitFirmness({ atHarvest: 80 }, [sample(30)]);
  const many = fitFirmness(
    { atHarvest: 80 },
    Array.from({ length: 200 }, (_, index) => sample(30 + index)),
  );
  expect(few?.softening.value).toBeGreaterThan(1);
  expect(few?.softening.value).toBeLessThan(1.5);
  expect(many?.softening.value).toBeGreaterThan(1.9);
});

test('without a test at harvest the samples say where it starts, and without samples nothing is fitted', () => {
  const samples = [30, 90, 150].map((days) => ({
    days,
    firmness: 75 - usualLoss(days),
    fruit: 40,
    lost: usualLoss(days),
  }));
  expect(fitFirmness({ atHarvest: undefined }, samples)?.atHarvest.value).toBeCloseTo(75, 0);
  expect(fitFirmness({ atHarvest: 80 }, [])).toBeUndefined();
});
