import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { figureNames } from '../../src/report/figure-names';
import { findThing } from '../../src/report/find-thing';
import { otherNames } from '../../src/report/other-names';
import { thingsOf } from '../../src/report/things';
import { sampleFiles } from '../samples/sample';

const season = computeSeason(readPlan(sampleFiles('first-season')), { release: 'none', courses: true });
const things = thingsOf(season);
const names = figureNames(season);

describe('names of figures', () => {
  // What a planner asks a room, a scrubber, a nitrogen source, a group, lime and a lot for.
  it.each([
    ['R2.days-to-cold', 'days'],
    ['R2.largest-intake', 'bins/day'],
    ['R2.temperature-2026-09-08', 'degC'],
    ['R2.seven-eighths-2026-09-08', 'days'],
    ['R2.busiest-day-share', '%'],
    ['R2.pull-down-time', 'h'],
    ['R2.hours-to-five-percent', 'h'],
    ['R2.waits-for-nitrogen', 'h'],
    ['R2.nitrogen-fed', 'm3'],
    ['R2.flush-1-volumes', '1'],
    ['R2.flush-2-hours', 'h'],
    ['R2.steady-carbon-dioxide', '%'],
    ['R2.time-constant', 'h'],
    ['R2.highest-carbon-dioxide', '%'],
    ['R2.hours-to-scrubbing', 'h'],
    ['R2.scrubbed', 'kg'],
    ['R2.oxygen-balance', 'm3'],
    ['R2.carbon-dioxide-balance', 'kg'],
    ['R2.oxygen-balance.2026-09-19', 'm3'],
    ['R2.carbon-dioxide-balance-2026-09-20', 'kg'],
    ['R2.half-life', 'min'],
    ['R2.half-life-needed', 'min'],
    ['R2.oxygen-leak', 'm3/h'],
    ['R2.oxygen-surplus', 'm3/h'],
    ['R2.weight-lost', '%'],
    ['R2.water-lost', 'kg'],
    ['R2.water-of-bins', 'kg'],
    ['R2.peak-cooling', 'kW'],
    ['S1.duty.2026-W41', 'h'],
    ['S1.duty-2026-w41', 'h'],
    ['S1.hours-R2-gala-2026-W41', 'h'],
    ['S1.saturation-time', 'min'],
    ['S1.removal-by-carbon', 'kg/day'],
    ['S1.peak-load', 'kg/day'],
    ['lime-box.lime-change', 'days'],
    ['lime-box.lime-of-season', 'kg'],
    ['N1.queue', 'h'],
    ['N1.hours-of-queue', 'h'],
    ['N1.R2-gala-set-point', 'h'],
    ['N1.peak-hours', 'h'],
    ['engine-room.peak-load', 'kW'],
    ['engine-room.load-2026-W38', 'kW'],
    ['season.power', '1'],
    ['G4.streif-index', '1'],
  ])('%s is found, in %s', (words, unit) => {
    expect(findThing(things, words)).toMatchObject({ kind: 'figure', figure: { figure: { unit } } });
  });

  it('are listed once a kind, many alike as one', () => {
    const listed = names.filter(({ kind }) => kind === 'scrubber').map(({ name }) => name);
    expect(new Set(listed).size).toBe(listed.length);
    expect(listed).toContain('duty-<week>');
    expect(listed).toContain('hours-<fill>-<week>');
    expect(names.map(({ name }) => name)).toContain('<lot>-storage-life');
    expect(names.find(({ name }) => name === 'hours-to-set-point')?.alsoCalled).toContain('pull-down-time');
  });

  it('have other words only for names that exist', () => {
    const known = new Set(names.map(({ name }) => name));
    for (const [other, name] of otherNames) {
      expect(known.has(name), name).toBe(true);
      expect(known.has(other), other).toBe(false);
    }
  });

  it('name every listed figure of a thing', () => {
    const known = new Set(names.map(({ kind, name }) => `${kind} ${name}`));
    for (const { kind, figures } of things.filter((thing) => thing.kind !== 'fill'))
      for (const { slug, minor } of figures)
        if (!minor) expect(known.has(`${kind} ${slug}`), `${kind} ${slug}`).toBe(true);
  });
});
