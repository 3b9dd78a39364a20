import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { figureNames } from '../../src/report/figure-names';
import { failsWithCropOf, withCropOf } from '../../src/report/larger-crop';
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

describe('a larger crop', () => {
  const season = computeSeason(readPlan(sampleFiles('full-season')), { release: 'none' });
  const passing = (percent: number) => failsWithCropOf(season, undefined, percent).map(({ then }) => then);
  const bins = ({ fills }: typeof season.plan) =>
    [...fills.values()].flatMap(({ lots }) => lots).reduce((sum, one) => sum + one.bins.value, 0);

  it('puts a tenth more bins of every lot into every fill', () => {
    // Each lot is rounded to whole bins.
    expect(bins(withCropOf(season, 110).plan) / bins(season.plan)).toBeCloseTo(1.1, 2);
    expect(bins(withCropOf(season, 100).plan)).toBe(bins(season.plan));
  });

  it('leaves what has come in as it is: all of a store that is full, part of one that is being filled', () => {
    const known = (sample: string) => computeSeason(readPlan(sampleFiles(sample)), { release: 'none' });
    const inMarch = known('in-march');
    expect(bins(withCropOf(inMarch, 150).plan)).toBe(bins(inMarch.plan));
    expect(
      failsWithCropOf(inMarch, undefined, 150).filter(({ now, then }) => then.share > now.share),
    ).toEqual([]);
    const midHarvest = known('mid-harvest');
    const [is, half, twice] = [100, 150, 200].map((percent) => bins(withCropOf(midHarvest, percent).plan));
    expect(is).toBe(bins(midHarvest.plan));
    const toCome = (twice ?? 0) - (is ?? 0);
    expect(toCome).toBeGreaterThan(0);
    expect(toCome).toBeLessThan(is ?? 0);
    // Whole bins of each lot.
    expect(Math.abs((half ?? 0) - (is ?? 0) - toCome / 2)).toBeLessThan(midHarvest.plan.lots.size);
  });

  it('is told in the order in which limits are passed, and more fruit never passes fewer', () => {
    const days = passing(110).map(({ passes }) => passes ?? 0);
    expect(days).toEqual([...days].sort((a, b) => a - b));
    const ids = (percent: number) => passing(percent).map(({ kind, id }) => `${kind} ${id}`);
    expect(ids(120).length).toBeGreaterThan(ids(110).length);
    expect(ids(120)).toEqual(expect.arrayContaining(ids(110)));
    expect(passing(110).every(({ share }) => share > 100)).toBe(true);
  });
});
