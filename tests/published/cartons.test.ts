import { test } from 'vitest';
import type { Packing } from '../../src/plan/model';
import { cartonsABin } from '../../src/release/cartons-a-bin';
import { aBinType, aFill, aLot, aPlan, day, figure, onlyRoom, written } from '../room/orchard';
import { check } from './published';

const ONTARIO =
  'Ontario, How to estimate bin requirements for apple harvest, https://www.ontario.ca/page/how-estimate-bin-requirements-apple-harvest: 2,000 apples a bin of the size that goes 100 to a carton';
const AT = { file: 'test', start: 0, end: 0 };
const entry = (id: string) => ({ id, at: AT, places: { span: AT } });

/** A packhouse that packs every apple and loses none. */
const allPacked: Packing = {
  ...entry('packing'),
  binsAWeek: undefined,
  daysAWeek: 5,
  closed: [],
  daysToEmpty: figure('days', 14),
  packedWait: figure('days', 0),
  costOfWaiting: figure('money', 0),
  processingPrice: figure('money', 0),
  packout: new Map([
    ['Gala', { ...entry('Gala'), shares: new Map([['all', figure('%', 100)]]), lossAMonth: figure('%', 0) }],
  ]),
};

function cartonsFrom(binKg: number, cartonKg: number): number {
  const room = onlyRoom({
    ...aPlan({ lots: [aLot('L1', 'Gala')], fills: [aFill({ lots: { L1: 300 } })] }),
    binTypes: new Map([['plastic-1200', aBinType({ netFruit: figure('kg', binKg) })]]),
  });
  const season = { firstWeek: Math.floor(day('2026-09-28') / 7), weeks: 1 };
  const [week] = cartonsABin(
    room.lots,
    300,
    allPacked,
    [{ variety: 'Gala', packClass: 'all' }],
    () => 0,
    cartonKg,
    season,
  );
  return week?.[0] ?? Number.NaN;
}

test.each([
  [40, 362.9],
  [42, 381.0],
] as const)('twenty cartons of %d lb come from a bin of %d kg', (pounds, binKg) => {
  check(
    {
      id: `cartons-of-${pounds}-lb`,
      what: `Cartons of ${pounds} lb from a bin of ${binKg} kg, all of it packed`,
      source: ONTARIO,
      known: 'published',
      expected: 20,
      unit: 'cartons',
      tolerance: 0.005,
    },
    cartonsFrom(binKg, written<'kg'>(`${pounds} lb`, 'mass').value),
  );
});
