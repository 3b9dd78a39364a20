import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { firstDayOfWeek } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { type PlantCalendar, plantCalendar } from '../../src/plant/calendar';
import { known } from '../room/orchard';
import { sampleFiles } from '../samples/sample';

function seasonOf(sample: string, changes: readonly (readonly [string, string])[] = []) {
  const files = sampleFiles(sample).map(({ path, text }) => ({
    path,
    text: changes.reduce((all, [from, to]) => all.replace(from, to), text),
  }));
  const plan = readPlan(files);
  expect(plan.problems).toEqual([]);
  return computeSeason(plan, { release: 'none', courses: true });
}

function calendarOf(season: ReturnType<typeof seasonOf>): PlantCalendar {
  const calendar = season.courses && plantCalendar(season.plan, season.filled, season.courses, undefined);
  if (!calendar) throw new Error('no calendar');
  return calendar;
}

describe('the calendar of the plant', () => {
  const season = seasonOf('first-season', [
    ['  currency: EUR\n', '  currency: EUR\n  power-price: 0.2\n'],
    ['      kind: membrane\n', '      kind: membrane\n      power: 15 kW\n'],
    ['      kind: carbon\n', '      kind: carbon\n      power: 4 kW\n      hours-a-day: 20\n'],
    ['refrigerant: R449A }', 'refrigerant: R449A, performance: 4 }'],
  ]);
  const { days, weeks } = calendarOf(season);

  it('agrees with the load by week that the rest of the program shows', () => {
    for (const [index, week] of weeks.entries()) {
      const load = season.plant?.refrigeration[0]?.weeks[index]?.load.value ?? Number.NaN;
      expect(week.refrigeration[0]?.use.value).toBeCloseTo(load, 9);
    }
  });

  it('runs nitrogen in each week as the weeks of the plant say', () => {
    for (const [index, week] of weeks.entries())
      expect(week.nitrogen[0]?.use.value).toBeCloseTo(
        season.plant?.nitrogen[0]?.weeks[index]?.runs.value ?? Number.NaN,
        6,
      );
  });

  it('asks for what the hour-by-hour cooling asks, with the rooms that hold', () => {
    const courses = [...(season.courses?.cooling.values() ?? [])];
    for (const { from, refrigeration } of days) {
      const asked = courses.flatMap((one) => one.days.find(({ day }) => day === from)?.askedKw ?? []);
      const sum = asked.reduce((all, one) => all + one, 0);
      expect(refrigeration[0]?.use.value ?? 0).toBeGreaterThanOrEqual(sum - 1e-9);
      if (asked.length === season.filled.size) expect(refrigeration[0]?.use.value).toBeCloseTo(sum, 9);
    }
  });

  it('gives no more cooling than the group has, and never more than is asked', () => {
    const weak = seasonOf('first-season', [
      ['engine-room: { capacity: 36 kW', 'engine-room: { capacity: 14 kW'],
    ]);
    const uses = calendarOf(weak).days.flatMap(({ refrigeration }) => refrigeration);
    const short = uses.filter(({ taken }) => taken);
    expect(short.length).toBeGreaterThan(3);
    for (const { use, taken } of short) {
      expect(taken?.value).toBeLessThanOrEqual(14 + 1e-9);
      expect(taken?.value).toBeLessThan(use.value);
    }
    expect(Math.max(...uses.map(({ share }) => share ?? 0))).toBeGreaterThan(100);
  });

  it('runs nitrogen for as many hours as the flushes of its rooms take', () => {
    const flushes = [...season.filled.values()].reduce(
      (sum, one) => sum + (one.nitrogenHours?.value ?? 0),
      0,
    );
    const hours = days.reduce((sum, day) => sum + (day.nitrogen[0]?.use.value ?? 0), 0);
    expect(flushes).toBeGreaterThan(50);
    expect(hours).toBeCloseTo(flushes, 9);
    expect(Math.max(...days.map((day) => day.nitrogen[0]?.use.value ?? 0))).toBeLessThanOrEqual(24 + 1e-9);
  });

  it('takes power for cooling, fans and lights, nitrogen and scrubbers, each once, and its price', () => {
    const rooms = [...season.filled.values()];
    const daysToEmpty = season.plan.packing?.daysToEmpty.value ?? 0;
    expect(season.plan.scrubbers.get('S1')?.power?.value).toBe(4);
    for (const { from, refrigeration, nitrogen, scrubbing, power, cost } of days) {
      const [cooling] = refrigeration;
      const scrubber = scrubbing.find(({ id }) => id === 'S1')?.use.value ?? 0;
      const inRooms = rooms.reduce((sum, { intake, fill, fanHeatHolding }) => {
        const [first, last] = [intake[0], intake.at(-1)];
        const emptied = fill.open && firstDayOfWeek(fill.open.value) + daysToEmpty;
        if (!first || !last || from < first.day || from > (emptied ?? from)) return sum;
        const settled = season.courses?.cooling.get(fill.id)?.days.at(-1)?.day ?? 0;
        const fans = from <= settled ? first.fanHeat.value : known(fanHeatHolding);
        return sum + fans + (from <= last.day ? first.lightHeat.value : 0);
      }, 0);
      const kwh =
        ((cooling?.taken ?? cooling?.use)?.value ?? 0) * 6 +
        (nitrogen[0]?.use.value ?? 0) * 15 +
        Math.min(100, scrubber) * 0.01 * 20 * 4 +
        inRooms * 24;
      expect(power?.value).toBeCloseTo(kwh, 9);
      expect(cost?.value).toBeCloseTo(0.2 * kwh, 9);
    }
  });

  it('adds up by week to what it is by day', () => {
    const sum = (periods: typeof days) => periods.reduce((all, { cost }) => all + (cost?.value ?? 0), 0);
    expect(sum(weeks)).toBeCloseTo(sum(days), 6);
  });

  it('has no cost without a price', () => {
    expect(calendarOf(seasonOf('first-season')).days.every(({ cost }) => cost === undefined)).toBe(true);
  });
});
