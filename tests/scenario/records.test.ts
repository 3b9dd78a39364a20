import { beforeAll, describe, expect, it } from 'vitest';
import { weekOfDay } from '../../src/plan/dates';
import { withRecords } from '../../src/plan/known';
import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { demandWanted } from '../../src/release/demand-wanted';
import {
  baseSeason,
  seasonOver,
  sideBySide,
  type ToldSeason,
  toldSeason,
} from '../../src/report/scenario-season';
import { askedShare, withCrop, withDemand, withDemandMoved } from '../../src/scenario/factors';
import { type StressKind, stressesOf } from '../../src/scenario/stress';
import { daysToCome } from '../../src/scenario/worst-days';
import { sampleFiles } from '../samples/sample';

const [midHarvest, inMarch] = [readPlan(sampleFiles('mid-harvest')), readPlan(sampleFiles('in-march'))];
const share = (percent: number) => () => askedShare(percent, 'crop');

function wanted(plan: Plan): number[] {
  const first = weekOfDay(plan.season?.starts?.value ?? 0);
  const rows = demandWanted(plan, first, 60).map(({ cartons }) => cartons);
  return Array.from({ length: 60 }, (_, week) => rows.reduce((sum, row) => sum + (row[week] ?? 0), 0));
}

function sum(all: Iterable<number>): number {
  return [...all].reduce((one, other) => one + other, 0);
}

describe('a crop that is partly in', () => {
  it.each([60, 80, 120, 150])('at %i % is so much of what has not come in', (percent) => {
    const [was, is] = [withRecords(midHarvest), withRecords(withCrop(midHarvest, share(percent)))];
    const isIn = [...was.lots.values()].filter(({ receivedBins }) => receivedBins);
    expect(isIn.length).toBeGreaterThan(0);
    expect(isIn.length).toBeLessThan(was.lots.size);
    for (const [id, lot] of was.lots) {
      const now = is.lots.get(id);
      if (lot.receivedBins) {
        expect(now?.receivedBins?.value, id).toBe(lot.receivedBins.value);
        continue;
      }
      const cameIn = sum(lot.receivedByDay?.values() ?? []);
      const rest = (lot.expectedBins?.value ?? 0) - cameIn;
      expect(now?.expectedBins?.value, id).toBe(cameIn + Math.round((rest * percent) / 100));
    }
  });

  it.each([60, 80, 120])(
    'at %i % leaves what is recorded of fills, and no lot fills more than it has',
    (percent) => {
      const is = withRecords(withCrop(midHarvest, share(percent)));
      const was = withRecords(midHarvest);
      let recorded = 0;
      for (const [id, progress] of midHarvest.progress) {
        if (progress.lots.length === 0) continue;
        recorded++;
        const bins = ({ fills }: Plan) => fills.get(id)?.lots.map(({ bins: { value } }) => value);
        expect(bins(is), id).toEqual(bins(was));
      }
      expect(recorded).toBeGreaterThan(0);
      for (const [id, lot] of is.lots) {
        const inFills = sum(
          [...is.fills.values()].flatMap(({ lots }) =>
            lots.filter((one) => one.lot.value === id).map(({ bins }) => bins.value),
          ),
        );
        expect(inFills, id).toBeLessThanOrEqual((lot.receivedBins ?? lot.expectedBins)?.value ?? 0);
      }
    },
  );

  it('changes nothing once all of it is in', () => {
    const after = withCrop(inMarch, share(80));
    expect(after.lots).toEqual(inMarch.lots);
    expect(after.fills).toEqual(inMarch.fills);
  });
});

describe('orders of a season that is under way', () => {
  const season = withRecords(inMarch);
  const past = weekOfDay((season.stand ?? 0) + 1) - weekOfDay(inMarch.season?.starts?.value ?? 0);
  const before = wanted(inMarch);

  it.each([1, 2, 5, -1, -3, -20])('moved by %i weeks: those of weeks past stay, and none is lost', (by) => {
    const now = wanted(withDemandMoved(inMarch, by));
    expect(past).toBeGreaterThan(10);
    expect(sum(before.slice(past))).toBeGreaterThan(0);
    expect(now.slice(0, past)).toEqual(before.slice(0, past));
    expect(sum(now)).toBe(sum(before));
    const inWeek = (week: number) =>
      sum(before.map((cartons, at) => (at >= past && Math.max(past, at + by) === week ? cartons : 0)));
    for (let week = past; week < 60; week++) expect(now[week], `week ${week}`).toBe(inWeek(week));
  });

  it('at 120 %: only those of weeks to come are more', () => {
    const now = wanted(withDemand(inMarch, share(120)));
    expect(now.slice(0, past)).toEqual(before.slice(0, past));
    expect(sum(now.slice(past)) / sum(before.slice(past))).toBeCloseTo(1.2, 2);
  });
});

it('a machine is out of use only on days that are still to come', () => {
  const asked = new Map([1, 2, 3, 4].map((day) => [day, 5]));
  expect([...daysToCome(asked, 2).keys()]).toEqual([3, 4]);
  expect(daysToCome(asked, undefined)).toBe(asked);
});

describe('what-if in March, with everything in store or sold', () => {
  let base: ToldSeason;
  beforeAll(() => {
    base = toldSeason(baseSeason(inMarch, 1));
  });

  function stressed(kind: StressKind, at = 0) {
    const { plan, plant } = base.season;
    const stress = stressesOf(kind, { plan, plant, varieties: ['Gala', 'Braeburn'] })[at];
    if (!stress) throw new Error(`nothing for ${kind} to press on`);
    const { season } = seasonOver(base, stress.apply(inMarch), 1);
    return sideBySide(base, toldSeason(season));
  }

  it('the base counts what is recorded', () => {
    expect(base.season.release?.problem.standing?.isPacked).toBe(true);
  });

  it.each(['less-crop', 'more-crop'] as const)('%s changes nothing: the crop is in', (kind) => {
    const { over, consequences, newFindings } = stressed(kind);
    expect(over.totals).toEqual(base.totals);
    expect(consequences).toEqual([]);
    expect(newFindings).toEqual([]);
  });

  it('Gala that keeps shorter is no matter any more: its rooms have been opened', () => {
    const { over, consequences, newFindings } = stressed('keeps-shorter');
    expect(over.totals).toEqual(base.totals);
    expect(consequences).toEqual([]);
    expect(newFindings).toEqual([]);
  });

  it('half the refrigeration does not press on last autumn, but on what is left', () => {
    const [load, ...others] = stressed('refrigeration-part').consequences;
    expect(others).toEqual([]);
    expect(load).toMatchObject({ kind: 'cooling-peak', gravity: 'shift' });
    expect((load?.after ?? 0) / (load?.before ?? 1)).toBeCloseTo(2, 6);
    expect(load?.after).toBeLessThan(50);
  });

  it('orders that come later leave short what is left', () => {
    const { over } = stressed('demand-later');
    expect(over.totals.schedule?.cartonsShort).toBeGreaterThan(base.totals.schedule?.cartonsShort ?? 0);
  });
});
