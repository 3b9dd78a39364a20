import { evaluate } from 'mathjs';
import { describe, expect, it } from 'vitest';
import type { Figure } from '../../src/plan/figure';
import { breakthroughTime, removalByCarbon } from '../../src/plant/carbon';
import { groupCooling } from '../../src/plant/group-cooling';
import { oxygenBalance } from '../../src/plant/oxygen-balance';
import { plantSeason } from '../../src/plant/season';
import { seasonCourses } from '../../src/plant/season-courses';
import { steadyLevel } from '../../src/plant/steady-level';
import { busiestDayShare, coolingCourse, intakeLimit } from '../../src/room/cooling-course';
import { humidityOfRoom } from '../../src/room/humidity';
import { aFill, aLot, aNitrogenSource, aPlan, aRoom, aScrubber, figure, filledRooms } from './orchard';

/** Every figure in a result and every figure it was computed from, once each. */
function allFigures(root: unknown): Figure[] {
  const found: Figure[] = [];
  const seen = new Set<unknown>();
  const visit = (value: unknown): void => {
    if (typeof value !== 'object' || value === null || seen.has(value)) return;
    seen.add(value);
    if ('origin' in value && 'unit' in value) found.push(value as Figure);
    const children = value instanceof Map ? value.values() : Object.values(value);
    for (const child of children) visit(child);
  };
  visit(root);
  return found;
}

const AT = { file: 'test', start: 0, end: 0 };
const beds = {
  at: AT,
  number: 2,
  carbon: figure('kg', 140),
  adsorb: figure('min', 8),
  regenerate: figure('min', 10),
  voidVolume: figure('m3', 0.5),
};
// Identifiers of every kind that a plan allows, so that no formula has a name it cannot hold.
const ids = ['L1', "Long Meadow/2-b's", 'Long.Meadow 2 b', 'e', 'pi', 'in'];
const plans = {
  carbon: aPlan({
    lots: ids.map((id, index) => aLot(id, index % 2 ? 'Gala' : 'Golden Delicious', 15 + index)),
    fills: [aFill({ lots: Object.fromEntries(ids.map((id, index) => [id, 50 + index])) })],
    scrubbers: [aScrubber({ beds })],
  }),
  lime: aPlan({ scrubbers: [aScrubber({ kind: 'lime' })], nitrogen: [aNitrogenSource([[97, 120]])] }),
  'warm hold': aPlan({ regimes: { plain: { temperature: 3, conditioning: { temperature: 10, days: 7 } } } }),
  fermenting: aPlan({
    regimes: { plain: { oxygen: 0.4 } },
    scrubbers: [
      aScrubber({
        kind: 'membrane',
        selectivity: { at: AT, overOxygen: figure('1', 6), overNitrogen: figure('1', 25) },
      }),
    ],
  }),
  'above the breakpoint': aPlan({ regimes: { plain: { oxygen: 0.9 } } }),
  air: aPlan({
    regimes: { plain: { oxygen: undefined, carbonDioxide: undefined } },
    fills: [aFill({ sealed: undefined })],
  }),
  'two fills': aPlan({
    rooms: [aRoom(), aRoom({ id: 'R2' })],
    fills: [aFill(), aFill({ id: 'F 2', room: 'R2', sealed: '2026-09-12', open: 2970 })],
  }),
};

describe('a figure is what its formula says', () => {
  for (const [name, plan] of Object.entries(plans)) {
    it(name, () => {
      const filled = filledRooms(plan);
      const rooms = [...filled.values()];
      const figures = allFigures([
        filled,
        plantSeason(plan, filled),
        seasonCourses(plan, filled),
        rooms.map((room) => [coolingCourse(plan, room), intakeLimit(plan, room), busiestDayShare(room)]),
        rooms.map((room) => oxygenBalance(room, plan.scrubbers.get('S1'))),
        rooms.map((room) => steadyLevel(room, plan.scrubbers.get('S1'))),
        [...plan.refrigerationGroups.values()].map((group) => groupCooling(plan, group, rooms)),
        [0.4, 2, 7, 30].map((level) => [
          removalByCarbon(aScrubber({ beds }), figure('%', level)),
          breakthroughTime(aScrubber({ beds }), figure('%', level)),
        ]),
        humidityOfRoom(figure('degC', 1), figure('t', 200), figure('kW', 9)),
      ]);
      let evaluated = 0;
      for (const { name: what, value, origin } of figures) {
        expect(Number.isFinite(value), what).toBe(true);
        if (origin.kind !== 'computed') continue;
        const scope = Object.fromEntries(Object.entries(origin.inputs).map(([key, one]) => [key, one.value]));
        const result: unknown = evaluate(origin.formula, scope);
        expect(typeof result, `${what}: ${origin.formula}`).toBe('number');
        expect(Math.abs(Number(result) - value), `${what}: ${origin.formula}`).toBeLessThanOrEqual(
          1e-9 * Math.max(1, Math.abs(value)),
        );
        evaluated++;
      }
      expect(evaluated).toBeGreaterThan(50);
    });
  }

  it('has a citation for every reference value', () => {
    for (const { name, origin } of allFigures(filledRooms(plans.carbon))) {
      if (origin.kind === 'reference') expect(origin.source.citation.length, name).toBeGreaterThan(20);
    }
  });
});
