import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSeason, opensIn } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { loadOnDay, weeklyLoad } from '../../src/plant/scrubber-load';
import { daysOfWeek } from '../../src/plant/weeks';
import { askedShare, withCrop } from '../../src/scenario/factors';
import { inNoRoom } from '../../src/scenario/in-no-room';
import { stressesOf } from '../../src/scenario/stress';
import { withinPlaces } from '../../src/scenario/within-places';
import { carbonDioxideByDay, nitrogenByDay, worstDays } from '../../src/scenario/worst-days';
import { edited, files } from './plans';

const base = readPlan(files);
const season = computeSeason(base);
const { plant } = season;
const opens = opensIn(season);

describe('the worst days of a machine', () => {
  const asked = fc
    .array(fc.integer({ min: 0, max: 24 }), { minLength: 1, maxLength: 40 })
    .map((hours) => new Map(hours.map((one, day) => [20_000 + day, one])));

  it('no other days of as many have more asked, and the first of them has some', () => {
    fc.assert(
      fc.property(asked, fc.integer({ min: 1, max: 9 }), (askedOn, days) => {
        const worst = worstDays(askedOn, days);
        const sum = (first: number) =>
          Array.from({ length: days }, (_, at) => askedOn.get(first + at) ?? 0).reduce((a, b) => a + b, 0);
        const most = Math.max(...[...askedOn.keys()].map(sum));
        expect(worst?.asked ?? 0).toBe(most);
        if (!worst) return;
        expect(worst.last - worst.first + 1).toBe(days);
        expect(askedOn.get(worst.first)).toBeGreaterThan(0);
      }),
    );
  });

  it('hours of nitrogen by day are those of the rooms, from their sealing on', () => {
    for (const source of plant?.nitrogen ?? []) {
      const hours = nitrogenByDay(source);
      const all = [...hours.values()].reduce((a, b) => a + b, 0);
      expect(all).toBeCloseTo(
        source.rooms.reduce((sum, { nitrogenHours }) => sum + (nitrogenHours?.value ?? 0), 0),
        6,
      );
      expect(Math.max(...hours.values())).toBeLessThanOrEqual(24);
    }
    expect(plant?.nitrogen).toHaveLength(1);
  });

  it('the mean of the loads of a week is its load', () => {
    const weeks = (plant?.scrubbers ?? []).flatMap(({ rooms, weeks: all }) =>
      all.map(({ week }) => ({ rooms, week })),
    );
    expect(weeks.length).toBeGreaterThan(20);
    for (const { rooms, week } of weeks) {
      const days = daysOfWeek(week).map((day) => loadOnDay(day, rooms, opens));
      expect(days.reduce((a, b) => a + b, 0) / 7).toBeCloseTo(weeklyLoad(week, rooms, opens).value, 9);
    }
  });

  it('each machine is out when most is asked of it', () => {
    const stressed = { plan: base, plant, opens, varieties: [] };
    const [nitrogen] = stressesOf('nitrogen-out', stressed);
    expect(nitrogen?.says).toContain('for 3 days from 2026-10-16');
    for (const days of [1, 3, 7])
      for (const one of plant?.scrubbers ?? []) {
        const worst = worstDays(carbonDioxideByDay(one, opens), days);
        const { id } = one.scrubber;
        const test = stressesOf('scrubber-out', stressed, { days }).find((it) => it.id.endsWith(` ${id}`));
        expect(test?.apply(base).scrubbers.get(id)?.outOfUse?.at(-1)?.value).toEqual({
          first: worst?.first,
          last: worst?.last,
        });
      }
  });
});

describe('a larger crop in the same rooms', () => {
  const binsIn = (plan: Plan, fill: string) =>
    (plan.fills.get(fill)?.lots ?? []).reduce((all, { bins }) => all + bins.value, 0);
  const larger = (plan: Plan, percent: number) => withCrop(plan, () => askedShare(percent, 'crop'));

  it('no room takes more than it has places for, and no bin is lost', () => {
    fc.assert(
      fc.property(fc.integer({ min: 50, max: 250 }), (percent) => {
        const plan = withinPlaces(larger(base, percent), base);
        for (const { fill, capacity } of season.filled.values()) {
          const places = Math.floor(capacity.places?.value ?? 0);
          expect(binsIn(plan, fill.id)).toBe(Math.min(places, binsIn(larger(base, percent), fill.id)));
        }
        const stored = [...plan.fills.keys()].reduce((all, fill) => all + binsIn(plan, fill), 0);
        const { packedAtHarvest, leftOver } = inNoRoom(plan);
        const grown = [...plan.lots.values()].reduce(
          (all, lot) => all + ((lot.receivedBins ?? lot.expectedBins)?.value ?? 0),
          0,
        );
        expect(stored + packedAtHarvest + leftOver).toBe(grown);
        for (const { lots } of plan.fills.values())
          for (const { bins } of lots) expect(Number.isInteger(bins.value) && bins.value > 0).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  it('a room that had too many keeps what it had', () => {
    const overfull = edited([['lots: { D1: 97, D2: 95, D3: 95 }', 'lots: { D1: 197, D2: 95, D3: 95 }']]);
    const plan = withinPlaces(larger(overfull, 130), overfull);
    expect(binsIn(plan, 'R3-golden')).toBe(387);
    const codes = findingsOf(computeSeason(plan)).map(({ code }) => code);
    expect(codes.filter((code) => code === 'room-overfilled')).toHaveLength(1);
  });
});
