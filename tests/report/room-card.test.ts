import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { firstDayOfWeek, formatDay, parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import type { DayChart, RoomCard } from '../../src/report/card-types';
import { findThing } from '../../src/report/find-thing';
import { cardKeyOf, roomCard } from '../../src/report/room-card';
import { thingsOf } from '../../src/report/things';
import { pointAt } from '../../src/room/course/room-course';
import { sampleFiles } from '../samples/sample';

const season = computeSeason(readPlan(sampleFiles('first-season')), { courses: true });
const findings = findingsOf(season);

function cardOf(key: string): RoomCard {
  const card = roomCard(season, findings, key, 7);
  if (!card) throw new Error(`no card of ${key}`);
  return card;
}

function chartOf(card: RoomCard, id: DayChart['id']): DayChart {
  const chart = card.charts.find((one) => one.id === id);
  if (!chart) throw new Error(`no chart ${id}`);
  return chart;
}

const valuesOf = (chart: DayChart, look: string) =>
  chart.lines.find((line) => line.look === look)?.values ?? [];

describe('the card of a sealed room', () => {
  const card = cardOf('R2-gala');
  const course = season.courses?.courses.get('R2-gala');
  if (!course) throw new Error('R2-gala has no course');

  test('runs from the first bin to the day it opens', () => {
    expect(card.days[0]).toBe('2026-09-08');
    expect(card.days.at(-1)).toBe(formatDay(course.sealed + Math.floor(course.room.untilHours / 24)));
    expect(card.events.find(({ what }) => what === 'sealed')?.day).toBe(10);
    const opened = card.events.find(({ what }) => what === 'opens')?.day ?? -1;
    const week = season.filled.get('R2-gala')?.fill.open?.value ?? 0;
    expect(card.days[opened]).toBe(formatDay(firstDayOfWeek(week)));
  });

  test('tells the levels of its course at the start of each day, and none before it is sealed', () => {
    const gas = chartOf(card, 'gas');
    const sealed = card.days.indexOf('2026-09-18');
    for (const [look, of] of [
      ['oxygen', 'oxygen'],
      ['carbon-dioxide', 'carbonDioxide'],
    ] as const) {
      const values = valuesOf(gas, look);
      expect(values).toHaveLength(card.days.length);
      expect(values.slice(0, sealed).every((value) => value === null)).toBe(true);
      for (const after of [0, 1, 5, 30]) {
        const point = pointAt(course.course, 24 * after);
        expect(values[sealed + after]).toBeCloseTo(point?.[of] ?? -1, 2);
      }
    }
    expect(valuesOf(gas, 'oxygen-set-point')[sealed + 30]).toBe(course.room.stages.at(-1)?.oxygen);
    expect(valuesOf(gas, 'lower-limit')[sealed + 30]).toBe(course.room.limits.leastOxygen);
  });

  test('ends its weight at what is lost by opening', () => {
    const loss = valuesOf(chartOf(card, 'weight'), 'loss').filter((value) => value !== null);
    expect(loss[0]).toBe(0);
    expect(loss.at(-1)).toBeCloseTo(course.weightLost.value, 1);
    for (let at = 1; at < loss.length; at += 1)
      expect(loss[at] ?? 0).toBeGreaterThanOrEqual(loss[at - 1] ?? 0);
  });

  test("has the fruit of each day of the intake, and the cooler's limit", () => {
    const filled = season.filled.get('R2-gala');
    const batches = chartOf(card, 'temperature').lines.filter(({ look }) => look === 'batch');
    expect(batches).toHaveLength(filled?.intake.length ?? 0);
    const cooling = chartOf(card, 'cooling');
    expect(new Set(valuesOf(cooling, 'upper-limit'))).toEqual(new Set([filled?.room.coolerCapacity?.value]));
    const [wanted, taken] = [valuesOf(cooling, 'wanted'), valuesOf(cooling, 'taken')];
    wanted.forEach((kilowatts, day) => {
      if (kilowatts !== null) expect(kilowatts).toBeGreaterThanOrEqual((taken[day] ?? 0) - 0.11);
    });
  });

  test('has figures that can each be asked how they came about', () => {
    const facts = card.facts.flatMap((group) => group.facts);
    expect(facts.length).toBeGreaterThan(15);
    const things = thingsOf(season);
    for (const { figure, label } of facts) {
      const found = findThing(things, figure ?? '');
      expect(found.kind, figure).toBe('figure');
      if (found.kind === 'figure') expect(found.figure.figure.name).toBe(label);
    }
  });

  test('has its lots with maturity and window, and the caution', () => {
    expect(card.lots.lines.map(({ cells }) => cells[0])).toEqual(
      season.filled.get('R2-gala')?.lots.map(({ lot }) => lot.id),
    );
    expect(card.lots.lines.every(({ cells }) => cells.length === card.lots.columns.length)).toBe(true);
    expect(card.lots.lines[0]?.cells[8]).toMatch(/^\d{4}-W\d\d$/);
    expect(card.caution).toContain('calibrated instrument');
    expect(card.revision).toBe(7);
  });
});

test('an air room has temperatures and cooling, no gas, and says why', () => {
  const air = [...computeSeason(readPlan(sampleFiles('full-season'))).filled.values()].find(
    ({ fill }) => !fill.sealed,
  );
  const full = computeSeason(readPlan(sampleFiles('full-season')), { courses: true, release: 'none' });
  const card = roomCard(full, [], air?.fill.id ?? '', 1);
  expect(card?.charts.map(({ id }) => id)).toEqual(['temperature', 'cooling']);
  expect(card?.notes).toEqual(['The room is kept in air: there is no gas to tell of.']);
});

test('a room that nothing fills has its own figures; a key the plan lacks has no card', () => {
  const text = sampleFiles('first-season').map(({ path, text: whole }) => ({
    path,
    text: whole.replace(/ {2}R4-braeburn:[\s\S]*?(?=\n {2}\S|\n\S|$)/, ''),
  }));
  const less = computeSeason(readPlan(text), { courses: true });
  expect(less.filled.has('R4-braeburn')).toBe(false);
  const card = roomCard(less, [], 'room:R4', 1);
  expect(card?.facts.map(({ title }) => title)).toEqual(['Room']);
  expect([card?.days, card?.lots.lines]).toEqual([[], []]);
  expect(roomCard(less, [], 'room:none', 1)).toBeUndefined();
  expect(roomCard(less, [], 'none', 1)).toBeUndefined();
});

test('a place of a room, a fill or a lot leads to the same card', () => {
  expect(cardKeyOf(season, 'rooms', 'R2')).toBe('R2-gala');
  expect(cardKeyOf(season, 'fills', 'R2-gala')).toBe('R2-gala');
  expect(cardKeyOf(season, 'lots', 'G4')).toBe('R2-gala');
  expect(cardKeyOf(season, 'lots', 'none')).toBeUndefined();
  expect(cardKeyOf(season, 'varieties', 'Gala')).toBeUndefined();
});

test('no plan, whatever it lacks, breaks a card', () => {
  const texts = [
    '',
    'rooms: { R1: {} }\nfills: { F: { room: R1, first-bin: 2026-09-01, last-bin: 2036-09-01 } }',
  ];
  for (const text of texts) {
    const odd = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text: `lotwright: 1\n${text}` }]), {
      courses: true,
    });
    const card = roomCard(odd, findingsOf(odd), 'F', 1);
    expect(card?.days.length ?? 0).toBeLessThanOrEqual(740);
  }
  expect(parseDay('2026-09-01')).toBeDefined();
});
