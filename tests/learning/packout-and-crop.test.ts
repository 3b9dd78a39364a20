import fc from 'fast-check';
import { inverse, Matrix } from 'ml-matrix';
import { describe, expect, test } from 'vitest';
import { ofLotAlone, STATED_DEVIATIONS } from '../../src/learning/assumptions';
import { type CropLot, fitCrop } from '../../src/learning/crop';
import { cropLessons } from '../../src/learning/crop-lessons';
import { fitPackout } from '../../src/learning/packout';
import { tenths } from '../../src/learning/packout-lessons';
import { readPlan } from '../../src/plan/read';
import { normalFrom, randomFrom } from './simulated-room';

describe('packout of a lot', () => {
  const plan = new Map([
    ['first', 0.62],
    ['second', 0.18],
  ]);

  test('goes from the plan to what was packed as bins are packed', () => {
    const of = (bins: number) =>
      fitPackout(plan, [{ bins, shares: new Map([['first', 0.5]]) }])?.shares.get('first')?.value ?? 0;
    expect(fitPackout(plan, [])).toBeUndefined();
    expect(of(1)).toBeCloseTo((25 * 0.62 + 0.5) / 26, 9);
    expect(of(25)).toBeCloseTo(0.56, 9);
    expect(of(2000)).toBeCloseTo(0.5, 2);
    expect(of(10)).toBeGreaterThan(of(100));
  });

  test('a class of which nothing was packed has its part of none', () => {
    const fit = fitPackout(plan, [{ bins: 75, shares: new Map([['first', 0.7]]) }]);
    expect(fit?.shares.get('second')?.value).toBeCloseTo(0.18 / 4, 9);
  });

  test('holds the share of simulated lots, whose bins are witnesses that differ', () => {
    const found = Array.from({ length: 5000 }, (_, seed) => {
      const random = randomFrom(7001 * (seed + 1));
      const normal = normalFrom(random);
      const truth = Math.min(0.98, Math.max(0.02, 0.62 + 0.095 * normal()));
      // Each bin is all first or none of it: the widest that bins of a lot can differ.
      const bins = 10 + Math.floor(150 * random());
      const first = Array.from({ length: bins }, () => (random() < truth ? 1 : 0)).reduce(
        (sum, one) => sum + one,
        0 as number,
      );
      const fit = fitPackout(plan, [{ bins, shares: new Map([['first', first / bins]]) }])?.shares.get(
        'first',
      );
      return fit !== undefined && fit.low <= truth && truth <= fit.high;
    });
    expect(found.filter(Boolean).length / 5000).toBeGreaterThan(0.93);
  });
});

describe('packout as it is written', () => {
  test('has the tenths that are shown', () => {
    expect(
      tenths([
        ['first', 60.4321],
        ['second', 22],
      ]),
    ).toEqual([
      ['first', '60.4'],
      ['second', '22'],
    ]);
  });

  test('is never more than the whole, nor further from what was fitted than a tenth', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 1e6 }), { minLength: 1, maxLength: 8 }), (parts) => {
        const sum = parts.reduce((total, part) => total + part, 0);
        const shares = parts.map((part, index) => [`c${index}`, (100 * part) / sum] as const);
        const written = tenths(shares).map(([, share]) => Number(share));
        expect(written.reduce((total, share) => total + share, 0)).toBeLessThanOrEqual(100 + 1e-9);
        for (const [index, share] of written.entries())
          expect(Math.abs(share - (shares[index]?.[1] ?? 0))).toBeLessThanOrEqual(0.1 + 1e-9);
      }),
    );
  });
});

describe('crop lessons', () => {
  const lessonsOf = (received: number) =>
    cropLessons(
      readPlan([
        {
          path: 'a.lotplan.yaml',
          text: `lots:
  G1: { variety: Gala, grower: Perez, block: River, picked: 2026-09-01, bins: 180, received: ${received} }
  G2: { variety: Gala, grower: Perez, block: River, picked: 2026-09-08, bins: 120 }
  F1: { variety: Fuji, grower: Baker, picked: 2026-10-10, bins: 160 }
`,
        },
      ]),
    ).lessons.map(({ entry }) => entry);

  test('are of lots alike to one that came in, and of no other', () => {
    expect(lessonsOf(140)).toEqual(['G2']);
  });

  test('are none where as much came in as was estimated: nothing would change', () => {
    expect(lessonsOf(180)).toEqual([]);
  });
});

describe('crop estimates', () => {
  const SPREAD = 0.05;

  test('of simulated seasons hold what comes in within their intervals', () => {
    let [held, all] = [0, 0];
    for (let seed = 1; seed <= 300; seed++) {
      const lots = drawnSeason(seed);
      const shown = lots.map(({ lot, isIn }) => ({ ...lot, received: isIn ? lot.received : undefined }));
      for (const { lot, share } of fitCrop(shown, SPREAD)) {
        const truth = lots.find((one) => one.lot.lot === lot)?.lot;
        const ratio = (truth?.received ?? 0) / (truth?.estimated ?? 1);
        all++;
        if (share.low <= ratio && ratio <= share.high) held++;
      }
    }
    expect(all).toBeGreaterThan(1000);
    expect(held / all).toBeGreaterThan(0.93);
    expect(held / all).toBeLessThan(0.99);
  });

  /** The same from the covariances of all lots received, each with each: Gaussian conditioning, as textbooks have it. */
  function fromCovariances(lots: readonly CropLot[]): Map<string, { mean: number; deviation: number }> {
    const known = lots.filter((lot) => lot.received !== undefined);
    const common = (one: CropLot, other: CropLot) => {
      if (one === other) return (4 * SPREAD ** 2) / 4;
      const same = (['variety', 'grower', 'block'] as const).filter(
        (kind) => one[kind] !== undefined && one[kind] === other[kind],
      );
      return ((1 + same.length) * SPREAD ** 2) / 4;
    };
    const own = ofLotAlone.value ** 2;
    const covariance = new Matrix(
      known.map((one) => known.map((other) => common(one, other) + (one === other ? own : 0))),
    );
    const turned = inverse(covariance);
    const logs = Matrix.columnVector(
      known.map(({ received = 0, estimated }) => Math.log(received / estimated)),
    );
    return new Map(
      lots
        .filter((lot) => lot.received === undefined)
        .map((lot) => {
          const shared = Matrix.columnVector(known.map((one) => common(lot, one)));
          const weights = shared.transpose().mmul(turned);
          const variance = common(lot, lot) + own - weights.mmul(shared).get(0, 0);
          return [lot.lot, { mean: weights.mmul(logs).get(0, 0), deviation: Math.sqrt(variance) }];
        }),
    );
  }

  test('are what the covariances of all lots give, whatever is said of them', () => {
    const name = fc.constantFrom(undefined, 'a', 'b', 'c', 'd', 'e');
    const lot = fc.record({
      block: name,
      variety: name,
      grower: fc.constantFrom(undefined, 'a', 'b'),
      received: fc.option(fc.integer({ min: 60, max: 140 }), { nil: undefined }),
    });
    fc.assert(
      fc.property(fc.array(lot, { minLength: 2, maxLength: 30 }), (drawn) => {
        const lots = drawn.map((one, at) => ({ ...one, lot: `${at}`, estimated: 100 }));
        const expected = fromCovariances(lots);
        for (const { lot: id, share } of fitCrop(lots, SPREAD)) {
          const { mean, deviation } = expected.get(id) ?? { mean: Number.NaN, deviation: Number.NaN };
          expect(Math.log(share.value)).toBeCloseTo(mean, 9);
          expect(Math.log(share.high)).toBeCloseTo(mean + STATED_DEVIATIONS * deviation, 9);
        }
      }),
    );
  });

  test('a block tells more of its own lots than of others', () => {
    const lot = (id: string, block: string, received: number | undefined): CropLot => ({
      lot: id,
      block,
      variety: 'Gala',
      grower: 'A',
      estimated: 100,
      received,
    });
    const fits = fitCrop(
      [
        lot('1', 'x', 80),
        lot('2', 'x', 80),
        lot('3', 'x', undefined),
        { ...lot('4', 'y', undefined), grower: 'B', variety: 'Fuji' },
      ],
      SPREAD,
    );
    const [same, other] = fits.map(({ share }) => share.value);
    expect(same).toBeLessThan(other ?? 0);
    expect(other).toBeLessThan(1);
    expect(same).toBeGreaterThan(0.8);
    expect(fits[0]).toMatchObject({ lot: '3', ofBlock: 2 });
  });

  test('without receipts, or with nothing to come, there is nothing to tell', () => {
    const lot: CropLot = {
      lot: '1',
      block: 'x',
      variety: 'Gala',
      grower: 'A',
      estimated: 100,
      received: undefined,
    };
    expect(fitCrop([lot], SPREAD)).toEqual([]);
    expect(fitCrop([{ ...lot, received: 90 }], SPREAD)).toEqual([]);
  });

  function drawnSeason(seed: number) {
    const random = randomFrom(9973 * seed);
    const normal = normalFrom(random);
    const part = SPREAD / 2;
    const drawn = new Map<string, number>();
    const of = (name: string) => {
      const value = drawn.get(name) ?? part * normal();
      drawn.set(name, value);
      return value;
    };
    return Array.from({ length: 20 }, (_, index) => {
      const [block, variety, grower] = [`b${index % 7}`, `v${index % 3}`, `g${index % 4}`];
      const estimated = 50 + Math.floor(200 * random());
      const log = of('season') + of(block) + of(variety) + of(grower) + 0.06 * normal();
      const lot: CropLot = {
        lot: `${index}`,
        block,
        variety,
        grower,
        estimated,
        received: Math.round(estimated * Math.exp(log)),
      };
      return { lot, isIn: index < 14 };
    });
  }
});
