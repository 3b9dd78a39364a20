import { describe, expect, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { streifIndex, termOf } from '../../src/keeping/maturity';
import { parseQuantity } from '../../src/plan/quantity';
import { planWith, present } from '../fruit/plans';
import { maturity } from '../keeping/rooms';
import { figure } from '../room/orchard';
import { check } from './published';

const data = fruitData(planWith());
const MICHIGAN = 'Michigan State University Extension, Checking apple maturity: what to look for, Table 1';

// Firmness (lbf) for short, mid and long storage; starch (one-to-eight) mature and over-mature.
const TABLE = [
  ['Braeburn', 16, 17, 18, 3, 7],
  ['Cortland', 14, 15, 16, 4, 6],
  ['Empire', 14, 15, 16, 3.5, 6],
  ['Fuji', 16, 17, 18, 3, 7],
  ['Gala', 16, 17, 18, 3, 6],
  ['Golden Delicious', 15, 16, 17, 3, 6.5],
  ['Honeycrisp', 15, 16, 17, 3.5, 7],
  ['Idared', 14, 15, 16, 3.5, 6],
  ['Jonagold', 15, 16, 17, 3.5, 5.5],
  ['Jonathan', 14, 15, 16, 3.5, 5.5],
  ['McIntosh', 14, 15, 16, 5, 7],
  ['Mutsu', 16, 17, 18, 3, 6],
  ['Northern Spy', 16, 17, 18, 3, 6],
  ['Red Delicious', 16, 17, 18, 2.5, 5],
  ['Rome', 15, 16, 18, 3, 5.5],
  ['Spartan', 17, 18, 19, 4, 6],
  ['Winesap', 17, 18, 19, 2.5, 6],
] as const;

/** Order of terms: 0 long, 1 mid, 2 short, 3 air. */
function termNumber(name: string, firmnessLbf: number, starch: number): number {
  const { term } = termOf(maturity({ firmnessLbf, starch }), present(data.variety(name)));
  return ['long', 'mid', 'short', 'air'].indexOf(present(term));
}

describe('storage term by firmness and starch (Michigan State University Extension, Table 1)', () => {
  test.each(TABLE)(
    '%s: short from %d, mid from %d, long from %d lbf; starch %d mature, %d over-mature',
    (name, short, mid, long, mature, overMature) => {
      const term = (firmness: number, starch: number) => termNumber(name, firmness, starch);
      expect([long, long - 0.1, mid, mid - 0.1, short, short - 0.1].map((lbf) => term(lbf, 1))).toEqual([
        0, 1, 1, 2, 2, 3,
      ]);
      expect(
        [mature, mature + 0.1, overMature - 0.1, overMature, 8].map((index) => term(long, index)),
      ).toEqual([0, 1, 1, 2, 2]);
    },
  );

  // Each cell of the table, found again from outside: where the term changes as firmness falls or starch rises.
  const CELLS = TABLE.flatMap(
    ([name, short, mid, long, mature, overMature]) =>
      [
        { name, cell: 'long', unit: 'lbf', expected: long },
        { name, cell: 'mid', unit: 'lbf', expected: mid },
        { name, cell: 'short', unit: 'lbf', expected: short },
        { name, cell: 'mature', unit: 'starch', expected: mature },
        { name, cell: 'over-mature', unit: 'starch', expected: overMature },
      ] as const,
  );
  const steps = (first: number, last: number) =>
    Array.from({ length: Math.round((last - first) * 10) + 1 }, (_, at) => first + at / 10);
  test.each(CELLS)('$name, $cell: $expected', ({ name, cell, unit, expected }) => {
    const asFirm = (term: number) => steps(10, 22).find((lbf) => termNumber(name, lbf, 1) <= term);
    const found = {
      long: () => asFirm(0),
      mid: () => asFirm(1),
      short: () => asFirm(2),
      mature: () => steps(1, 8).findLast((starch) => termNumber(name, 25, starch) === 0),
      'over-mature': () => steps(1, 8).find((starch) => termNumber(name, 25, starch) === 2),
    }[cell]?.();
    check(
      {
        id: `michigan-${name.toLowerCase().replace(' ', '-')}-${cell}`,
        what: `${name}: ${cell === 'mature' ? 'most starch index for long' : cell === 'over-mature' ? 'least starch index for short or air' : `least firmness for ${cell}`} storage`,
        source: MICHIGAN,
        known: 'published',
        expected,
        unit,
        tolerance: 0,
      },
      present(found),
    );
  });

  test('the weaker of firmness and starch decides, in every cell of every variety', () => {
    for (const [name, short, mid, long, mature, overMature] of TABLE) {
      for (const lbf of steps(short - 1, long + 1)) {
        for (const starch of steps(1, 8)) {
          const byFirmness = lbf >= long - 1e-9 ? 0 : lbf >= mid - 1e-9 ? 1 : lbf >= short - 1e-9 ? 2 : 3;
          const byStarch = starch <= mature ? 0 : starch < overMature ? 1 : 2;
          if (termNumber(name, lbf, starch) !== Math.max(byFirmness, byStarch))
            expect([name, lbf, starch, termNumber(name, lbf, starch)]).toEqual([
              name,
              lbf,
              starch,
              Math.max(byFirmness, byStarch),
            ]);
        }
      }
    }
  });

  test('Gala of 16.5 lbf and starch 4 is firm enough for short storage, not for mid', () => {
    check(
      {
        id: 'term-gala-16-5-starch-4',
        what: 'Term of Gala, 16.5 lbf, starch 4 (0 long, 1 mid, 2 short, 3 air)',
        source: MICHIGAN,
        known: 'published',
        expected: 2,
        unit: 'term',
        tolerance: 0,
      },
      termNumber('Gala', 16.5, 4),
    );
  });
});

describe('firmness units', () => {
  const NEWTONS = [
    [10, 44.48],
    [11, 48.93],
    [12, 53.38],
    [14, 62.28],
    [16, 71.17],
    [18, 80.07],
  ] as const;
  test.each(NEWTONS)('%d lbf is %d N', (pounds, expected) => {
    check(
      {
        id: `newtons-of-${pounds}-lbf`,
        what: `${pounds} lbf in newtons`,
        source: 'NIST Special Publication 811 (2008), appendix B: 1 lbf = 4.448222 N',
        known: 'published',
        expected,
        unit: 'N',
        tolerance: 0.005,
      },
      present(parseQuantity(`${pounds} lbf`, 'force')).value,
    );
  });
});

describe('Streif index', () => {
  test('of 8.0 kgf, 12 % soluble solids and starch 4', () => {
    check(
      {
        id: 'streif-index',
        what: 'Streif index of 8.0 kgf, 12 %, starch 4 of 10',
        source: 'NIAB Apple Best Practice Guide, https://www.niab.com/node/2538',
        known: 'published',
        expected: 1.635,
        unit: '1',
        tolerance: 0.0005,
      },
      streifIndex({
        at: { file: 'f', start: 0, end: 0 },
        tested: undefined,
        starch: figure('1', 4),
        starchScale: 'one-to-ten',
        firmness: figure('N', 8 * 9.81),
        solubleSolids: figure('%', 12),
        ethylene: undefined,
      })?.value ?? Number.NaN,
    );
  });
});
