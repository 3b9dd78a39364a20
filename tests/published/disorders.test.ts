import { describe, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { roomKeeping } from '../../src/keeping/room-keeping';
import type { RegimeOverride } from '../../src/plan/model';
import { ownRegime, planWith, present, written } from '../fruit/plans';
import { day, type LotValues, roomOf } from '../keeping/rooms';
import { check } from './published';

/** When disorders come, as the lot's own result in a room says, against what was read in the sources. */

const MONTH = 365.2425 / 12;
const SEALED = '2026-09-08';

interface Case {
  readonly lot: LotValues;
  readonly regime: Partial<RegimeOverride>;
  readonly inAir?: boolean;
}

function risk(id: string, { lot, regime: own, inAir }: Case) {
  const { plan, filled } = roomOf({ lots: [lot], sealed: inAir ? null : SEALED });
  const regime = fruitData(planWith([], [ownRegime('own', own)])).regime('own');
  const [kept] = roomKeeping(plan, { ...filled, regime }).lots;
  return present(
    present(kept).disorders.find(({ disorder }) => disorder.id === id),
    id,
  );
}

const air = { temperature: written(0.5, 'degC') } as const;
const gas = (oxygen: number, carbonDioxide: number) => ({
  ...air,
  oxygen: written(oxygen, '%'),
  carbonDioxide: written(carbonDioxide, '%'),
});
/** Days from sealing to the beginning. */
const afterSealing = (id: string, one: Case) =>
  risk(id, one).begins.value - (day(SEALED) - day('2026-09-01'));

const UC_DAVIS = 'University of California, Davis, Postharvest Center, Apple: Scald';
const rows = [
  [
    'scald-granny-smith',
    'Scald of Granny Smith is evident after',
    UC_DAVIS,
    3,
    'months',
    () => risk('scald', { lot: { variety: 'Granny Smith' }, regime: gas(1.5, 1) }).begins.value / MONTH,
  ],
  [
    'scald-delicious',
    'Scald of Delicious is evident after',
    UC_DAVIS,
    3,
    'months',
    () => risk('scald', { lot: { variety: 'Delicious' }, regime: gas(1.5, 2) }).begins.value / MONTH,
  ],
  [
    'scald-in-air',
    'Susceptible fruit without protection is marketed within',
    'U.S. Department of Agriculture, Apple scald and its control, 1954 (60 to 90 days)',
    90,
    'days',
    () => present(risk('scald', { lot: { variety: 'Rome' }, regime: air, inAir: true }).packedBy).value,
  ],
  [
    'senescent-scald-golden',
    'Senescent scald of Golden Delicious comes after',
    'Washington State University, Tree Fruit Market Diseases, Senescent scald',
    7,
    'months',
    () =>
      risk('senescent-scald', { lot: { variety: 'Golden Delicious' }, regime: gas(1.5, 1) }).begins.value /
      MONTH,
  ],
  [
    'browning-gala',
    'Gala in standard CA browns little for',
    'DeEll, in Good Fruit Grower, Cultivars with reputations for storage complications',
    5,
    'months',
    () => afterSealing('browning', { lot: { variety: 'Gala' }, regime: gas(1.5, 1) }) / MONTH,
  ],
  [
    'fuji-injury-visible',
    'Injury of Fuji at 3 % CO2 is first visible after',
    'Argenta and others 2000, Postharvest Biology and Technology 20:221-229',
    15,
    'days',
    () => afterSealing('carbon-dioxide-injury', { lot: { variety: 'Fuji' }, regime: gas(1.5, 3) }),
  ],
  [
    'injury-first-months',
    'Carbon dioxide injures mostly in the first',
    'Mattheis (USDA), Dealing with carbon dioxide sensitivity, Good Fruit Grower',
    4,
    'months',
    () =>
      present(risk('carbon-dioxide-injury', { lot: { variety: 'Empire' }, regime: gas(2, 4) }).disorder.until)
        .value / MONTH,
  ],
  [
    'braeburn-browning',
    'Braeburn browning disorder develops in the first',
    'Elgar, Burmeister and Watkins 1998, HortScience 33(4):719-722',
    14,
    'days',
    () =>
      present(
        risk('carbon-dioxide-injury', { lot: { variety: 'Braeburn' }, regime: gas(3, 2) }).disorder.until,
      ).value,
  ],
  [
    'honeycrisp-soft-scald',
    'Soft scald of Honeycrisp develops only after',
    'American Society for Horticultural Science, annual conference 2014, Paper 19244',
    2,
    'months',
    () =>
      risk('soft-scald', {
        lot: { variety: 'Honeycrisp' },
        regime: { ...gas(3, 0.5), temperature: written(3, 'degC') },
      }).begins.value / MONTH,
  ],
] as const;

describe('disorders in storage', () => {
  test.each(rows)('%s', (id, what, source, expected, unit, actual) => {
    check(
      { id: `disorder-${id}`, what, source, known: 'published', expected, unit, tolerance: 1e-6 },
      actual(),
    );
  });
});
