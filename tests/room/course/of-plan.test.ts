import { describe, expect, it } from 'vitest';
import { fruitData } from '../../../src/fruit/data';
import { respirationInAir } from '../../../src/fruit/respiration';
import { rateInAir } from '../../../src/room/course/of-plan';
import { hoursOf, pointAt, roomCourse } from '../../../src/room/course/room-course';
import type { RoomCourse } from '../../../src/room/course/types';
import { aFill, aLot, aPlan, aRoom, day, figure, known, onlyRoom, type PlanSpec, written } from '../orchard';
import { scrubbing } from './rooms';

const OPENS = day('2027-04-05');
const choices = { scrubbing: scrubbing(30) };

const full = aFill({ lots: { L1: 500, L2: 350 } });

function courseOf(spec: PlanSpec = {}, more: Parameters<typeof roomCourse>[2] = choices): RoomCourse {
  const course = roomCourse(onlyRoom(aPlan({ fills: [full], ...spec })), OPENS, more);
  if (!course) throw new Error('no course');
  return course;
}

describe('a sealed room from its plan', () => {
  const { course, hoursToFivePercent, hoursToSetPoint, ...figures } = courseOf();
  const room = onlyRoom(aPlan({ fills: [full] }));

  it('is flushed, brought to its oxygen by the fruit, and held there', () => {
    const kinds = course.events.map(({ kind }) => kind);
    expect(kinds.indexOf('feed-starts')).toBe(0);
    expect(kinds).toContain('feed-stops');
    // The fruit helps, so it takes a little less than the nitrogen alone does, and never more.
    const flush = hoursOf(course, 'feed-stops') ?? 0;
    expect(flush).toBeLessThan(known(room.nitrogenHours));
    expect(flush).toBeGreaterThan(known(room.nitrogenHours) * 0.85);
    expect(known(hoursToFivePercent)).toBeLessThan(known(hoursToSetPoint));
    expect(figures.oxygenAtEnd.value).toBeCloseTo(1.8, 6);
    expect(figures.carbonDioxideAtEnd.value).toBeCloseTo(1.5, 6);
  });

  it('takes some hundred steps for a season, most of them in the days when something changes', () => {
    expect(course.steps).toBeLessThan(250);
    expect(course.points.length).toBeGreaterThan(300);
  });

  it('gives off in store what the plain load says', () => {
    const [a, b] = [pointAt(course, 24 * 100), pointAt(course, 24 * 101)];
    const aDay = (b?.carbonDioxideMadeKg ?? 0) - (a?.carbonDioxideMadeKg ?? 0);
    // The course has the last trace of fermentation too, which the plain load leaves out far above the breakpoint.
    expect(aDay / known(room.carbonDioxideInStore)).toBeCloseTo(1, 4);
  });

  it('loses in a month in store what the plain weight loss says', () => {
    const [a, b] = [pointAt(course, 24 * 100), pointAt(course, 24 * 100 + (24 * 365.2425) / 12)];
    const lost = (one: typeof a) => (one?.dryMatterLostKg ?? 0) + (one?.waterLostKg ?? 0);
    const percent = (100 * (lost(b) - lost(a))) / (known(room.fruit) * 1000);
    expect(percent / known(room.weightLossPerMonth)).toBeCloseTo(1, 4);
  });
});

describe('the sources that disagree', () => {
  const made = (which: 'low' | 'expected' | 'high') =>
    courseOf({}, { ...choices, respiration: which }).carbonDioxideMade.value;

  it('give a low, an expected and a high course', () => {
    expect(made('low')).toBeLessThan(made('expected'));
    expect(made('expected')).toBeLessThan(made('high'));
  });

  it('differ in the hours of a pull-down by fruit alone, by the oxygen at half the greatest respiration', () => {
    const hours = (halfAt: number) =>
      known(courseOf({ nitrogen: [] }, { ...choices, law: 'curve', halfAt }).hoursToSetPoint);
    expect(hours(1)).toBeLessThan(hours(5));
  });
});

describe('stages', () => {
  it('hold carbon dioxide low at first and let it rise later', () => {
    const stages = [
      { fromHours: 0, oxygen: 2.5, carbonDioxide: 0.5 },
      { fromHours: 24 * 30, oxygen: 1.8, carbonDioxide: 2.5 },
    ];
    const { course } = courseOf({}, { scrubbing: scrubbing(80), stages });
    expect(pointAt(course, 24 * 25)?.carbonDioxide).toBeCloseTo(0.5, 5);
    expect(pointAt(course, 24 * 25)?.oxygen).toBeCloseTo(2.5, 5);
    expect(pointAt(course, 24 * 90)?.carbonDioxide).toBeCloseTo(2.5, 5);
    expect(pointAt(course, 24 * 90)?.oxygen).toBeCloseTo(1.8, 5);
  });

  it('raise oxygen with air where a later one is higher', () => {
    const stages = [
      { fromHours: 0, oxygen: 1.5 },
      { fromHours: 24 * 30, oxygen: 3 },
    ];
    const { course } = courseOf({}, { scrubbing: scrubbing(30), stages });
    expect(pointAt(course, 24 * 29)?.oxygen).toBeCloseTo(1.5, 5);
    expect(pointAt(course, 24 * 35)?.oxygen).toBeCloseTo(3, 5);
  });

  it('of a warm hold keep the fruit warm and then bring it down', () => {
    const conditioning = { temperature: 10, days: 7 };
    const { course } = courseOf({ regimes: { plain: { temperature: 3, conditioning } } });
    // Last bin on 8 September, seven days' hold, seven days' step down, sealed on the 10th.
    expect(pointAt(course, 24 * 4)?.fruitCelsius).toBeCloseTo(10, 1);
    expect(pointAt(course, 24 * 10)?.fruitCelsius).toBeGreaterThan(5);
    expect(pointAt(course, 24 * 20)?.fruitCelsius).toBeCloseTo(3, 2);
  });
});

describe('things that go wrong', () => {
  it('oxygen climbs in a room that leaks more than its fruit uses', () => {
    const leaky = { ...aRoom(), tightness: { ...tightness(), after: figure('min', 0.05) } };
    const { course, oxygenAtEnd } = courseOf({ rooms: [leaky] });
    expect(hoursOf(course, 'set-point-reached') === undefined || oxygenAtEnd.value > 1.9).toBe(true);
  });

  it('carbon dioxide passes the limit of the most sensitive variety without a scrubber', () => {
    const { course, highestCarbonDioxide } = courseOf({}, {});
    expect(hoursOf(course, 'carbon-dioxide-above-limit')).toBeGreaterThan(0);
    expect(highestCarbonDioxide.value).toBeGreaterThan(5);
  });

  it('a scrubber without enough to give is at its most, and the level settles above the set-point', () => {
    const { course, carbonDioxideAtEnd } = courseOf({}, { scrubbing: scrubbing(2) });
    expect(carbonDioxideAtEnd.value).toBeGreaterThan(1.6);
    expect(course.events.length).toBeLessThan(20);
  });

  it('lime is used up', () => {
    const lime = { ...scrubbing(20), passive: true, capacityKg: 100 };
    const { course, scrubbed } = courseOf({}, { scrubbing: lime });
    expect(hoursOf(course, 'lime-used-up')).toBeGreaterThan(24);
    expect(scrubbed.value).toBeCloseTo(100, 6);
  });

  it('says what it assumed for a room without a pressure test, and has no course for one in air', () => {
    expect(courseOf({ rooms: [aRoom({ tightness: undefined })] }).assumptions).toHaveLength(1);
    const inAir = onlyRoom(aPlan({ regimes: { plain: { oxygen: undefined } } }));
    expect(roomCourse(inAir, OPENS)).toBeUndefined();
    expect(roomCourse(onlyRoom(aPlan({ fills: [aFill({ sealed: undefined })] })), OPENS)).toBeUndefined();
    expect(roomCourse(onlyRoom(aPlan()), day('2026-09-01'))).toBeUndefined();
  });
});

describe('either system of units', () => {
  it('gives the same course', () => {
    const us = aRoom({
      length: written('61.023622047244096 ft', 'length'),
      width: written('29.527559055118110 ft', 'length'),
      height: written('24.934383202099738 ft', 'length'),
    });
    const lots = [aLot('L1', 'Gala'), aLot('L2', 'Fuji')];
    const warm = lots.map((lot) => ({ ...lot, fieldTemperature: written<'degC'>('68 °F', 'temperature') }));
    const [metric, inFeet] = [courseOf({ lots }), courseOf({ lots: warm, rooms: [us] })];
    expect(inFeet.carbonDioxideMade.value / metric.carbonDioxideMade.value).toBeCloseTo(1, 9);
    expect(known(inFeet.hoursToSetPoint) / known(metric.hoursToSetPoint)).toBeCloseTo(1, 9);
  });
});

it('asks for respiration in air as the figures do, at any temperature', () => {
  const fruit = fruitData(aPlan());
  for (const name of ['Gala', 'Fuji', 'McIntosh']) {
    const variety = fruit.variety(name);
    if (!variety) throw new Error(name);
    for (let at = -2; at <= 30; at += 1.7) {
      expect(rateInAir(variety)(at) / respirationInAir(variety, figure('degC', at)).value).toBeCloseTo(1, 12);
    }
  }
});

function tightness() {
  const { tightness: test } = aRoom();
  if (!test) throw new Error('the room has a test');
  return test;
}
