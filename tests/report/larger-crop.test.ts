import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { figureNames } from '../../src/report/figure-names';
import { plantReport } from '../../src/report/plant-report';
import { thingsOf } from '../../src/report/things';
import { sampleFiles } from '../samples/sample';

const NAME = 'peak-share-with-10-percent-more';

describe('the load of a machine with a tenth more of every lot', () => {
  const season = computeSeason(readPlan(sampleFiles('full-season')), { release: 'none' });
  const figures = thingsOf(season).flatMap((thing) => thing.figures.filter(({ slug }) => slug === NAME));

  it('is what the plant report says passes its limit, and no other machine does', () => {
    const { crop } = plantReport(season, [], { crop: 10 });
    const machines = (crop?.passes ?? []).filter(({ kind }) =>
      ['scrubber', 'nitrogen', 'refrigeration'].includes(kind),
    );
    for (const { id, share } of machines) {
      const figure = figures.find(({ owner }) => owner === id)?.figure;
      expect(figure?.value).toBeCloseTo(share, 6);
      expect(figure?.origin.kind).toBe('computed');
    }
    const passedNow = new Set((plantReport(season, [], { crop: 0 }).crop?.passes ?? []).map(({ id }) => id));
    const over = figures.filter(({ figure, owner }) => figure.value > 100 && !passedNow.has(owner));
    const told = new Set(machines.map(({ id }) => id));
    expect(over.every(({ owner }) => told.has(owner))).toBe(true);
    expect(figures.length).toBeGreaterThan(machines.length);
  });

  it('is more than now for cooling and scrubbing, less for nitrogen, and is in the list of names', () => {
    const now = thingsOf(season).flatMap((thing) =>
      thing.figures.filter(({ slug }) => slug === 'peak-share'),
    );
    for (const { owner, figure } of now) {
      const more = figures.find((one) => one.owner === owner);
      // More fruit leaves less gas to be flushed.
      const times = season.plan.nitrogenSources.has(owner) ? -1 : 1;
      expect(times * ((more?.figure.value ?? 0) - figure.value), owner).toBeGreaterThan(0);
    }
    const listed = figureNames(season).filter(({ name }) => name === NAME);
    expect(listed.map(({ kind }) => kind).sort()).toEqual([
      'nitrogen source',
      'refrigeration group',
      'scrubber',
    ]);
  });
});
