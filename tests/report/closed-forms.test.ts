import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import type { Figure } from '../../src/plan/figure';
import { readPlan } from '../../src/plan/read';
import { figureId } from '../../src/report/named-figures';
import { thingsOf } from '../../src/report/things';
import { carbonDioxideOfDay, oxygenOfDay } from '../../src/room/course/closed/balances';
import { roomCelsius } from '../../src/room/course/fruit-temperature';
import { pointAt } from '../../src/room/course/room-course';
import { CARBON_DIOXIDE_KG, molesPerCubicMetre } from '../../src/room/course/state';
import { sampleFiles } from '../samples/sample';

/**
 * What is integrated stands beside a closed form. Each pair of a sample plan must agree within what is stated here, per
 * cent of the closed form; looser ones are those whose text says what the formula leaves out.
 */
const WITHIN: Readonly<Record<string, number>> = {
  'hours-to-five-percent': 1.5,
  'hours-to-set-point': 2,
  'nitrogen-fed': 2.5,
  'lowest-oxygen': 0.01,
  'oxygen-at-end': 0.1,
  'carbon-dioxide-at-end': 0.1,
  // Turns are set a day at a time, so a first day of scrubbing can pass the set-point.
  'highest-carbon-dioxide': 15,
  'hours-to-scrubbing': 10,
  'carbon-dioxide-made': 4,
  scrubbed: 6,
  'dry-matter-lost': 1,
  'water-lost': 8,
  'days-to-cold': 5,
  // A day's fruit in a room whose cooler is short for days.
  'seven-eighths': 45,
  // All fruit on one day, with a cooler that is short for days.
  'quickest-days-to-cold': 35,
  // Weekly means of a straight line against the courses' own.
  'peak-time-needed': 30,
};

/** Of temperatures, K. */
const KELVINS_WITHIN = 2.5;

function pairs(sample: string): { id: string; slug: string; figure: Figure; closed: Figure }[] {
  const season = computeSeason(readPlan(sampleFiles(sample)), { release: 'none', courses: true });
  return thingsOf(season)
    .filter(({ kind }) => kind !== 'fill')
    .flatMap(({ figures }) => figures)
    .flatMap((named) =>
      (named.figure.beside ?? [])
        .filter(({ kind }) => kind === 'closed form')
        .map(({ figure: closed }) => ({
          id: figureId(named),
          slug: named.slug,
          figure: named.figure,
          closed,
        })),
    );
}

describe('an integrated figure and its closed form', () => {
  for (const [sample, rooms] of [
    ['first-season', 3],
    ['us-units', 4],
    ['full-season', 43],
  ] as const) {
    it(`agree in ${sample}`, () => {
      const found = pairs(sample);
      for (const { id, slug, figure, closed } of found) {
        expect(closed.unit, id).toBe(figure.unit);
        const difference = Math.abs(figure.value - closed.value);
        if (figure.unit === 'degC') {
          expect(difference, id).toBeLessThan(KELVINS_WITHIN);
          continue;
        }
        const within = WITHIN[slug.replace(/-\d{4}-\d\d-\d\d$/, '')];
        expect(within, `${id} has no stated difference`).toBeDefined();
        expect((100 * difference) / Math.abs(closed.value), id).toBeLessThan(within ?? 0);
      }
      // No pair is missed: every sealed room has its pull-down, its carbon dioxide and its losses.
      for (const slug of [
        'hours-to-set-point',
        'nitrogen-fed',
        'carbon-dioxide-made',
        'scrubbed',
        'water-lost',
      ])
        expect(found.filter((one) => one.slug === slug).length, slug).toBeGreaterThanOrEqual(rooms);
    });
  }
});

describe('the balances of a course', () => {
  it('add up to the gas that is in the room at its opening', () => {
    const season = computeSeason(readPlan(sampleFiles('first-season')), { release: 'none', courses: true });
    const figures = new Map(
      thingsOf(season).flatMap(({ figures: own }) => own.map((one) => [figureId(one), one.figure.value])),
    );
    for (const room of ['R2', 'R3', 'R4']) {
      const volume = figures.get(`${room}.free-gas-volume`) ?? Number.NaN;
      const percent = figures.get(`${room}.oxygen-at-end`) ?? Number.NaN;
      expect(figures.get(`${room}.oxygen-balance`)).toBeCloseTo((volume * percent) / 100, 6);
      // Carbon dioxide at 0 to 1 °C weighs 1.956 to 1.963 kg for each cubic metre (ideal gas).
      const level = figures.get(`${room}.carbon-dioxide-at-end`) ?? Number.NaN;
      const mass = ((volume * level) / 100) * 1.96;
      expect(Math.abs((figures.get(`${room}.carbon-dioxide-balance`) ?? 0) - mass)).toBeLessThan(
        0.003 * mass,
      );
    }
  });

  it('add up day by day, also while a room cools, to the level at the end of the day', () => {
    for (const sample of ['first-season', 'us-units']) {
      const season = computeSeason(readPlan(sampleFiles(sample)), { release: 'none', courses: true });
      for (const course of season.courses?.courses.values() ?? []) {
        const { gasVolumeM3, untilHours } = course.room;
        for (let index = 0; index < untilHours / 24; index += 1) {
          const end = pointAt(course.course, Math.min(24 * (index + 1), untilHours));
          const oxygen = oxygenOfDay(course, course.sealed + index)?.value ?? Number.NaN;
          expect(oxygen, `${course.fill}, day ${index}`).toBeCloseTo(
            (gasVolumeM3 * (end?.oxygen ?? Number.NaN)) / 100,
            5,
          );
          const kg = carbonDioxideOfDay(course, course.sealed + index)?.value ?? Number.NaN;
          const perM3 =
            molesPerCubicMetre(roomCelsius(course.room.temperature, end?.hours ?? 0)) * CARBON_DIOXIDE_KG;
          expect(kg).toBeCloseTo(((gasVolumeM3 * (end?.carbonDioxide ?? Number.NaN)) / 100) * perM3, 5);
        }
        expect(oxygenOfDay(course, course.sealed - 1)).toBeUndefined();
        expect(carbonDioxideOfDay(course, course.sealed + Math.ceil(untilHours / 24))).toBeUndefined();
      }
    }
  });
});
