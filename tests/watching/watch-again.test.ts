import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import type { ComputedSeason } from '../../src/findings/types';
import { readPlan } from '../../src/plan/read';
import { finish } from '../../src/plan/steps';
import type { FileRead } from '../../src/readings/file-of';
import { readReadings } from '../../src/readings/read-readings';
import { expectedOf } from '../../src/report/watching';
import { recordMore } from '../../src/watching/record';
import { seenReadings } from '../../src/watching/seen-readings';
import { WatchAgain } from '../../src/watching/watch-again';
import { planText, withPlant } from './room-plan';

const MORE = `readings:
  store: { file: store.csv, columns: { time: Time, room: Room, oxygen: O2, carbon-dioxide: CO2, temperature: Air } }
`;

function seasonOf(change: (text: string) => string = (text) => text): ComputedSeason {
  const plan = readPlan([{ path: 'a.lotplan.yaml', text: change(withPlant(planText({ more: MORE }))) }]);
  return computeSeason(plan, { courses: true, release: 'none' });
}

const SEASONS = [
  seasonOf(),
  seasonOf((text) => text.replace('oxygen: 1.5 %', 'oxygen: 1.9 %')),
  seasonOf((text) => text.replace('sealed: 2026-09-18', 'sealed: 2026-09-20')),
];

/** Readings from 21 September on. Oxygen creeps up from 1 October on where it is told to. */
function csvOf(days: number, creeps: boolean, noise: readonly number[], aDay = 4): string {
  const rows = Array.from({ length: aDay * days }, (_, index) => {
    const day = 21 + Math.floor(index / aDay);
    const date = day <= 30 ? `2026-09-${day}` : `2026-10-${String(day - 30).padStart(2, '0')}`;
    const minutes = (1440 / aDay) * (index % aDay);
    const two = (value: number) => String(Math.floor(value)).padStart(2, '0');
    const time = `${date} ${two(minutes / 60)}:${two(minutes % 60)}`;
    const creep = creeps && day > 30 ? 0.1 * (day - 30) : 0;
    const off = (noise[index % noise.length] ?? 0) / 100;
    return `${time},R1,${(1.5 + off + creep).toFixed(2)},${(2 + off).toFixed(2)},${(1 + off).toFixed(1)}`;
  });
  return ['Time,Room,O2,CO2,Air', ...rows, ''].join('\n');
}

function filesOf({ plan }: ComputedSeason, csv: string): FileRead[] {
  return [...plan.readings.values()].map((layout) => ({
    ...readReadings(csv, layout, new Set(plan.rooms.keys())),
    readings: layout.id,
    file: 'store.csv',
    isMissing: false,
  }));
}

function atOnce(season: ComputedSeason, files: readonly FileRead[]) {
  const expected = expectedOf(season);
  const records = files.flatMap(({ rooms }) =>
    [...rooms].map(([room, read]) => [room, recordMore(expected.get(room) ?? [], undefined, read)] as const),
  );
  return seenReadings(files, expected, new Map(records));
}

const against = ({ filled, courses }: ComputedSeason) => ({
  filled,
  courseOf: (fill: string) => courses?.courses.get(fill),
});

describe('readings watched again', () => {
  it('come to what they come to at once, whatever of file and plan has changed meanwhile', () => {
    const state = fc.record({
      season: fc.nat({ max: SEASONS.length - 1 }),
      days: fc.integer({ min: 0, max: 38 }),
      creeps: fc.boolean(),
      noise: fc.constantFrom([1, -2, 3, 0, -1], [0, 4, -4, 2, 1, -3, 0]),
    });
    fc.assert(
      fc.property(fc.array(state, { minLength: 1, maxLength: 6 }), (states) => {
        const watch = new WatchAgain();
        for (const { season: index, days, creeps, noise } of states) {
          const season = SEASONS[index] ?? seasonOf();
          const files = filesOf(season, csvOf(days, creeps, noise));
          expect(finish(watch.steps(files, against(season)))).toEqual(atOnce(season, files));
        }
      }),
    );
  });

  it('are the very same where nothing has changed, and go on where rows were added', () => {
    const [season = seasonOf()] = SEASONS;
    const watch = new WatchAgain();
    const files = filesOf(season, csvOf(20, true, [1, -2, 0]));
    const seen = finish(watch.steps(files, against(season)));
    expect(seen.sightings.map(({ kind }) => kind)).toContain('oxygen-high');
    expect(finish(watch.steps(files, against(season)))).toBe(seen);
    const stepsOf = (again: WatchAgain, csv: string) => {
      let count = 0;
      const steps = again.steps(filesOf(season, csv), against(season));
      while (!steps.next().done) count++;
      return count;
    };
    const often = (days: number) => csvOf(days, false, [1, -2, 0], 144);
    const whole = new WatchAgain();
    const first = stepsOf(whole, often(30));
    expect(stepsOf(whole, often(31))).toBeLessThan(first / 2);
  });

  it('are forgotten with their file', () => {
    const [season = seasonOf()] = SEASONS;
    const watch = new WatchAgain();
    finish(watch.steps(filesOf(season, csvOf(20, true, [1, 0])), against(season)));
    expect(finish(watch.steps([], against(season)))).toEqual({ files: [], sightings: [], unread: [] });
  });
});
