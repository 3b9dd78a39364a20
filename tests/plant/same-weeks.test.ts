import { expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { weeklyLoad } from '../../src/plant/scrubber-load';
import { sampleFiles } from '../samples/sample';

const { plant } = computeSeason(readPlan(sampleFiles('full-season')), { release: 'none' });
if (!plant) throw new Error('no plant');

it("a scrubber's weeks of the same rooms have their figures in common, and say what each week says by itself", () => {
  for (const { rooms, weeks, capacity } of plant.scrubbers) {
    expect(new Set(weeks.map(({ load }) => load)).size).toBeLessThan(weeks.length / 2);
    for (const { week, load, share } of weeks) {
      expect(JSON.stringify(load)).toBe(JSON.stringify(weeklyLoad(week, rooms, undefined)));
      expect(share?.value).toBeCloseTo((100 * load.value) / (capacity?.value ?? Number.NaN), 9);
    }
  }
});

it('weeks in which nothing is asked of a nitrogen source tell nothing but noughts', () => {
  for (const { weeks } of plant.nitrogen) {
    const idle = weeks.filter(({ hours }) => hours === weeks.at(-1)?.hours);
    expect(idle.length).toBeGreaterThan(weeks.length / 2);
    for (const { hours, carried, runs, left, share } of idle)
      expect([hours, carried, runs, left, share].map(({ value }) => value)).toEqual([0, 0, 0, 0, 0]);
  }
});
