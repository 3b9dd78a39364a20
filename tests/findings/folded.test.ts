import { describe, expect, it } from 'vitest';
import { folded } from '../../src/findings/again/folded';
import { SeasonAgain } from '../../src/findings/again/season-again';
import { computeSeason } from '../../src/findings/compute';
import { firstDayOfWeek } from '../../src/plan/dates';
import type { Figure } from '../../src/plan/figure';
import { readPlan } from '../../src/plan/read';
import { smallPlan } from '../edits/bases';
import { difference } from '../edits/difference';
import { samplePlan } from '../server/plans';

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
  expect(fold?.name).toBe('a figure of the plan before its last change');
});

describe('the edges of a window that a lot sets, of a season whose plan has gone on', () => {
  const files = samplePlan('first-season');
  const none = { release: undefined, courses: undefined };
  const older = (from: string, to: string) => {
    const again = new SeasonAgain({ byField: true });
    const edges = again.compute(readPlan(files), none).keeping.get('R2-gala')?.window;
    const edited = files.map(({ path, text }) => ({ path, text: text.replace(from, to) }));
    again.compute(readPlan(edited), none);
    if (!edges?.latest.lot) throw new Error('a lot sets the latest week of R2-gala');
    return edges;
  };

  it.each([
    ['no such fill any more', '  R2-gala:\n', '  R2-other:\n'],
    ['other weeks', 'storage-life: 7 months', 'storage-life: 5 months'],
  ])('tell their own week where there is or are %s', (_, from, to) => {
    const { latest, bestBefore } = older(from, to);
    for (const { week, lot, because } of [latest, bestBefore]) {
      const picked = lot?.picked?.value.first ?? 0;
      expect(because.value).toBe(firstDayOfWeek(week) - picked);
      expect(because.name).toBe(
        `days from the picking of lot ${lot?.id} to the week by which it called for opening`,
      );
      expect(because.origin).toMatchObject({ what: 'the plan as it was before its last change' });
    }
  });

  it('are told in full where they are as they were', () => {
    const { latest } = older('name: ', 'name: x');
    expect(latest.because.origin.kind).toBe('computed');
  });
});
