import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import type { Loading, Room } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { roomsReport } from '../../src/report/rooms-report';
import { byHand } from '../../src/room/by-hand';
import { coolingCourse, intakeLimit } from '../../src/room/cooling-course';
import { sampleFiles } from '../samples/sample';
import { aPlan, aRoom, figure, known, onlyRoom } from './orchard';

const AT = { file: 'orchard.lotplan.yaml', start: 0, end: 1 };

interface Work {
  readonly lights?: number;
  readonly vehicles?: number;
  readonly people?: number;
  readonly hours?: number;
}

function loadingOf({ lights, vehicles, people, hours }: Work): Loading {
  return {
    at: AT,
    lights: lights === undefined ? undefined : figure('kW', lights),
    vehicles: vehicles === undefined ? undefined : figure('1', vehicles),
    vehicleHeat: undefined,
    people: people === undefined ? undefined : figure('1', people),
    hoursADay: hours === undefined ? undefined : figure('h', hours),
  };
}

function planWith(over: Partial<Room>) {
  return aPlan({ rooms: [aRoom(over)] });
}

const roomWith = (over: Partial<Room>) => onlyRoom(planWith(over));
const bare = roomWith({});

describe('what works in a room while it is filled', () => {
  // 2.4 kW, a forklift of 36,920 kJ in 8 h, two people of 1,000 kJ/h, for 10 h of a day.
  const worked = roomWith({ loading: loadingOf({ lights: 2.4, vehicles: 1, people: 2, hours: 10 }) });
  const more = (2.4 * 10) / 24 + ((36_920 / 8) * 10) / 86_400 + (2 * 1000 * 10) / 86_400;

  it("is in each day's heat, and in the peak", () => {
    worked.intake.forEach(({ heat }, index) => {
      expect(heat.value - (bare.intake[index]?.heat.value ?? 0)).toBeCloseTo(more, 9);
    });
    expect(known(worked.peakCooling) - known(bare.peakCooling)).toBeCloseTo(more, 9);
  });

  it('is none of what holds the room', () => {
    expect(known(worked.holdingCooling)).toBe(known(bare.holdingCooling));
  });

  it('is in the hour-by-hour cooling until the day of the last bin, and no longer', () => {
    const strong = { coolerCapacity: figure('kW', 10_000) } as const;
    const days = (loading?: Loading) => {
      const plan = planWith({ ...strong, ...(loading ? { loading } : {}) });
      return coolingCourse(plan, onlyRoom(plan))?.days ?? [];
    };
    const [without, withIt] = [days(), days(worked.room.loading)];
    withIt.forEach(({ wantedKw }, index) => {
      expect(wantedKw - (without[index]?.wantedKw ?? 0)).toBeCloseTo(index < 6 ? more : 0, 9);
    });
    expect(withIt.length).toBeGreaterThan(6);
  });

  it('is none where nothing is stated, and is stated once for all rooms or by the room, key by key', () => {
    expect(bare.intake[0]?.lightHeat.value).toBe(0);
    expect(bare.intake[0]?.peopleHeat.value).toBe(0);
    const plan = planWith({ loading: loadingOf({ people: 3 }) });
    const policy = { ...plan.policy, loading: loadingOf({ lights: 1.2, people: 1, hours: 12 }) };
    const [first] = onlyRoom({ ...plan, policy }).intake;
    expect(first?.lightHeat.value).toBeCloseTo(0.6, 12);
    expect(first?.peopleHeat.value).toBeCloseTo((3 * 1000 * 12) / 86_400, 12);
  });

  it('never asks for less cooling when there is more of it, nor lets more bins in', () => {
    const some = fc.double({ min: 0, max: 8, noNaN: true });
    fc.assert(
      fc.property(
        some,
        some,
        some,
        some,
        fc.integer({ min: 0, max: 24 }),
        (lights, vehicles, people, add, hours) => {
          const less = planWith({
            loading: loadingOf({ lights, vehicles, people, hours }),
            coolerCapacity: figure('kW', 40),
          });
          const all = planWith({
            loading: loadingOf({
              lights: lights + add,
              vehicles: vehicles + add,
              people: people + add,
              hours,
            }),
            coolerCapacity: figure('kW', 40),
          });
          expect(known(onlyRoom(all).peakCooling)).toBeGreaterThanOrEqual(known(onlyRoom(less).peakCooling));
          const [small, large] = [all, less].map(
            (plan) => intakeLimit(plan, onlyRoom(plan))?.largest?.value ?? 0,
          );
          expect(small).toBeLessThanOrEqual(large ?? 0);
        },
      ),
      { numRuns: 15 },
    );
  });
});

describe('the fans of a cooler', () => {
  it('are counted as stated, while loading and when holding', () => {
    const stated = roomWith({ fanPower: figure('kW', 7.5), fanMotors: figure('kW', 100) });
    const byRule = known(bare.intake[0]?.fanHeat);
    expect(known(stated.intake[0]?.fanHeat)).toBe(7.5);
    expect(known(stated.holdingCooling) - known(bare.holdingCooling)).toBeCloseTo(7.5 - byRule, 9);
  });

  it('run less when the room holds, where the plan says so, and in full until the fruit is cold', () => {
    const half = roomWith({ fanPower: figure('kW', 6), fansHolding: figure('%', 50) });
    const full = roomWith({ fanPower: figure('kW', 6) });
    expect(known(full.holdingCooling) - known(half.holdingCooling)).toBeCloseTo(3, 9);
    expect(known(half.peakCooling)).toBe(known(full.peakCooling));
    const [a, b] = [half, full].map(
      ({ room }) => coolingCourse(aPlan({ rooms: [room] }), onlyRoom(aPlan({ rooms: [room] })))?.days,
    );
    expect(a).toEqual(b);
  });

  it("by their motors' rating where that is known: 3,112 kJ an hour for each horsepower", () => {
    const rated = roomWith({ fanMotors: figure('kW', 0.745_699_87) });
    expect(known(rated.intake[0]?.fanHeat) * 3600).toBeCloseTo(3112, 3);
  });
});

it('stands term by term in the rooms report and in the explanations', () => {
  const plan = readPlan(sampleFiles('first-season'));
  const season = computeSeason(plan, { release: 'none' });
  const rooms = roomsReport(season, []).rooms;
  const terms = rooms.find(({ room }) => room === 'R4')?.peakCoolingTerms;
  const room = season.filled.get('R4-braeburn');
  if (!terms || !room) throw new Error('no room');
  const { day: _day, ...heats } = terms;
  const sum = Object.values(heats).reduce((all, heat) => all + (heat?.value ?? 0), 0);
  expect(sum).toBeCloseTo(known(room.peakCooling), 6);
  // 0.4 kW of lights and a person, for 6 h of the day.
  expect(terms.lightHeat?.value).toBeCloseTo(0.1, 9);
  expect(terms.peopleHeat?.value).toBeCloseTo(6000 / 86_400, 6);
  expect(known(byHand(room, undefined, undefined)['light-heat'])).toBeCloseTo(0.1, 9);
});

describe('the same in a plan, in both systems of units', () => {
  function heatOf(refrigeration: string, loading: string) {
    const files = sampleFiles('first-season').map(({ path, text }) => ({
      path,
      text: text.replace(
        '    refrigeration: { capacity: 16 kW, group: engine-room }\n',
        `    refrigeration: { capacity: 16 kW, group: engine-room, ${refrigeration} }\n    loading: { ${loading} }\n`,
      ),
    }));
    const plan = readPlan(files);
    expect(plan.problems).toEqual([]);
    const room = computeSeason(plan, { release: 'none' }).filled.get('R2-gala');
    if (!room) throw new Error('no room');
    return room;
  }

  it('comes to the same heat', () => {
    const metric = heatOf('fans: 2.2 kW', 'lights: 600 W, vehicle-heat: 1.5 kW, vehicles: 1, people: 2');
    const us = heatOf(
      `fans: ${2.2 / 0.745_699_871_582_27} hp`,
      `lights: ${600 / 0.293_071_070_172_22} BTU/h, vehicle-heat: ${1.5 / 3.516_852_842_066_7} TR, vehicles: 1, people: 2`,
    );
    expect(known(metric.intake[0]?.vehicleHeat)).toBeCloseTo(0.5, 9);
    metric.intake.forEach(({ heat }, index) => {
      expect((us.intake[index]?.heat.value ?? 0) / heat.value).toBeCloseTo(1, 9);
    });
  });
});
