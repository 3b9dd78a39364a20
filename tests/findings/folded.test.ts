import { expect, it } from 'vitest';
import { folded } from '../../src/findings/again/folded';
import { computeSeason } from '../../src/findings/compute';
import type { Figure } from '../../src/plan/figure';
import { readPlan } from '../../src/plan/read';
import { smallPlan } from '../edits/bases';
import { difference } from '../edits/difference';

const season = () => computeSeason(readPlan(smallPlan('orchard')), { release: 'none' });

it('a folded room says of every figure what the room said', () => {
  const rooms = [...season().filled.entries()];
  expect(rooms.length).toBeGreaterThan(0);
  for (const [id, room] of rooms) {
    const folds = folded(room, () => season().filled.get(id));
    expect(Object.keys(folds.fruit ?? {})).toEqual(['value', 'unit']);
    expect(difference(folds, room)).toBeUndefined();
  }
});

it('it is made again once for all that is asked at a time', () => {
  const [id, room] = [...season().filled][0] ?? [];
  let made = 0;
  const folds = folded(room, () => {
    made++;
    return season().filled.get(id ?? '');
  });
  expect(made).toBe(0);
  const { fruit, utilisation } = folds ?? {};
  expect(fruit?.origin.kind).toBe('computed');
  expect(utilisation?.name).toBe(room?.utilisation?.name);
  expect(JSON.stringify(utilisation)).toBe(JSON.stringify(room?.utilisation));
  expect(made).toBe(1);
});

it('and says so where the plan has gone on and holds another figure in its place', () => {
  const figure: Figure = {
    name: 'bins',
    value: 4,
    unit: 'bins',
    origin: { kind: 'counted', what: 'all', places: [] },
  };
  const [fold] = folded([figure], () => [{ ...figure, value: 5 }]);
  expect(fold?.value).toBe(4);
  expect(fold?.origin).toMatchObject({ kind: 'counted', what: 'the plan as it was before its last change' });
});
