import { expect, it } from 'vitest';
import { parseDay } from '../../src/plan/dates';
import { oxygenClimbs } from '../../src/room/course/climbs';
import { findingsOnExample, readPage, seasonOfExample } from './page';

/** The scrubber of the plan around the examples, at rest for some days. */
function atRest(days: string): string {
  return `plant:
  scrubbers:
    S1: { kind: carbon, removal: 60 kg/day, at-level: 3 %, out-of-use: [${days}] }
`;
}

/** What is scrubbed at once after a month leaves room for air: the gas of the room shrinks. */
const MONTH = atRest('2026-09-20..2026-10-20');

it('oxygen that rises and is back before the room opens is told with its highest level and its days', () => {
  const [told, ...others] = findingsOnExample(MONTH).filter(({ code }) => code === 'oxygen-climbs');
  expect(others).toEqual([]);
  expect(told?.severity).toBe('notice');
  const course = seasonOfExample(MONTH).courses?.courses.get('R1-gala');
  const [climb] = course ? oxygenClimbs(course) : [];
  const after = course?.course.points.filter(({ hours }) => course.sealed + hours / 24 >= (climb?.from ?? 0));
  const highest = Math.max(...(after ?? []).map(({ oxygen }) => oxygen));
  expect(climb?.highest).toBe(highest);
  const [, from = '', level, on = '', until = ''] =
    /from (\S+) oxygen climbs above its 1\.75 %, at most to ([\d.]+) % on (\S+), and is back by (\S+), before/.exec(
      told?.message ?? '',
    ) ?? [];
  expect(level).toBe(highest.toFixed(2));
  expect([from, on, until].map(parseDay)).toEqual([climb?.from, climb?.highestOn, climb?.until]);
  expect(told?.message).toContain('(common practice)');
});

it('the nitrogen that is told brings the highest level down to the set-point, mixed with all the gas', () => {
  const [told] = findingsOnExample(MONTH).filter(({ code }) => code === 'oxygen-climbs');
  const season = seasonOfExample(MONTH);
  const [climb] = [...(season.courses?.courses.values() ?? [])].flatMap(oxygenClimbs);
  const gas = season.filled.get('R1-gala')?.freeGasVolume?.value ?? Number.NaN;
  const [, fed] = /: (\d+) m³ of its purest gas/.exec(told?.message ?? '') ?? [];
  // The purest gas of N1 has half a per cent of oxygen.
  const left = 0.5 + ((climb?.highest ?? 0) - 0.5) * Math.exp(-Number(fed) / gas);
  expect(left).toBeCloseTo(1.75, 1);
});

it('a rise that is small is in the course alone', () => {
  const days = atRest('2026-10-20..2026-10-30');
  const climbs = [...(seasonOfExample(days).courses?.courses.values() ?? [])].flatMap(oxygenClimbs);
  expect(climbs.length).toBeGreaterThan(0);
  for (const { highest, setPoint } of climbs) expect(highest - setPoint).toBeLessThan(0.5);
  expect(findingsOnExample(days).filter(({ code }) => code === 'oxygen-climbs')).toEqual([]);
});

it('oxygen that is said to climb to the end is shown to be above its set-point', () => {
  for (const example of readPage('oxygen-climbs').wrong) {
    const { message = '' } = findingsOnExample(example).find(({ code }) => code === 'oxygen-climbs') ?? {};
    const [, setPoint, end] = /above its ([\d.]+) %, to ([\d.]+) %/.exec(message) ?? [];
    expect(Number(end)).toBeGreaterThan(Number(setPoint));
  }
});
