import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { readPlan } from '../../src/plan/read';
import { figureId } from '../../src/report/named-figures';
import { thingsOf } from '../../src/report/things';
import { sampleFiles } from '../samples/sample';

const plan = readPlan(sampleFiles('first-season'));
const season = computeSeason(plan, { release: 'none', courses: true });
const things = thingsOf(season);
const value = (id: string) =>
  things.flatMap(({ figures }) => figures).find((named) => figureId(named) === id)?.figure.value;

describe('figures of a course', () => {
  it('stand with the room: integrated, and reckoned by formula beside it', () => {
    const [integrated, reckoned] = [value('R2.hours-to-set-point'), value('R2.reckoned-hours-to-set-point')];
    // By formula the fruit is cold and its use during the flush is left out: the same day or the next.
    expect(reckoned).toBeGreaterThan(24);
    expect(Math.abs((integrated ?? 0) - (reckoned ?? 0))).toBeLessThan(24);
    expect(value('R2.highest-carbon-dioxide')).toBeCloseTo(1.8, 3);
    expect(value('R2.days-to-cold')).toBeGreaterThan(3);
  });

  it('say whether the fruit keeps up with what comes in, and only then where oxygen goes', () => {
    expect(value('R2.oxygen-surplus')).toBeLessThan(0);
    expect(value('R2.oxygen-settles-at')).toBeUndefined();
    expect(value('R2.bed-air-borne')).toBeGreaterThan(value('R2.bed-air') ?? Number.NaN);
    expect(value('R2.half-life-needed')).toBeLessThan(26);
  });

  it('tell of a scrubber what its carbon takes up, and of a source how long rooms wait', () => {
    // 20 kg in a bed; the isotherm at 2 % lies between 4 g/kg at 1 % and 11.5 at 3 %, 60 % of it used.
    expect(value('S1.uptake-of-bed')).toBeGreaterThan((20 * 4 * 0.6) / 1000);
    expect(value('S1.uptake-of-bed')).toBeLessThan((20 * 11.5 * 0.6) / 1000);
    expect(value('S1.peak-time-needed')).toBeGreaterThan(20);
    expect(value('N1.R2-gala-waits')).toBe(0);
  });

  it('tell the power of the season, by week and in all', () => {
    const weeks = things
      .flatMap(({ figures }) => figures)
      .filter(({ owner, slug }) => owner === 'season' && /^power-\d/.test(slug));
    const sum = weeks.reduce((all, { figure }) => all + figure.value, 0);
    expect(weeks.length).toBeGreaterThan(20);
    expect(value('season.power')).toBeCloseTo(sum, 6);
    expect(value('season.power')).toBeGreaterThan(1000);
    // The plan has no price of power.
    expect(value('season.power-cost')).toBeUndefined();
  });

  it('are named once in each thing', () => {
    for (const { id, figures } of things) {
      const ids = figures.map(figureId);
      expect(new Set(ids).size, id).toBe(ids.length);
    }
  });

  it('are only those by formula where no courses were asked for', () => {
    const ids = thingsOf(computeSeason(plan, { release: 'none' }))
      .flatMap(({ figures }) => figures)
      .map(figureId);
    expect(ids).toContain('R2.half-life-needed');
    expect(ids).not.toContain('R2.hours-to-set-point');
  });
});
