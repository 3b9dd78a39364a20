import { describe, expect, it } from 'vitest';
import { computeSeason, withCourses } from '../../src/findings/compute';
import { onceFor } from '../../src/findings/courses';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

function seasonOf(change: (text: string) => string = (text) => text) {
  const files = sampleFiles('first-season').map(({ path, text }) => ({ path, text: change(text) }));
  return computeSeason(readPlan(files), { release: 'none' });
}

describe("rooms' courses", () => {
  const atHand = withCourses(seasonOf()).courses;

  it('are computed only where asked for', () => {
    expect(seasonOf().courses).toBeUndefined();
    expect([...(atHand?.courses.keys() ?? [])].sort()).toEqual(['R2-gala', 'R3-golden', 'R4-braeburn']);
    expect(atHand?.cooling.size).toBe(4);
  });

  it('stay those at hand while nothing they follow from changes, wherever it stands in the text', () => {
    const moved = seasonOf((text) => text.replace('lotwright: 1', '# a comment\n\nlotwright: 1'));
    expect(withCourses(moved, atHand).courses).toBe(atHand);
    const priced = seasonOf((text) => text.replaceAll('price: 11.00', 'price: 12.00'));
    expect(withCourses(priced, atHand).courses).toBe(atHand);
  });

  it.each([
    ['a seal', 'sealed: 2026-09-18', 'sealed: 2026-09-19'],
    ['a set-point', 'oxygen: 1.5 %', 'oxygen: 1.6 %'],
    ['a scrubber', 'removal: 18 kg/day', 'removal: 19 kg/day'],
    ['rinsed beds', 'rinsed: 60 %', 'rinsed: 61 %'],
    ['a pressure test', 'after: 26 min', 'after: 27 min'],
    ['a cooler', 'capacity: 16 kW', 'capacity: 15 kW'],
    ['a lime charge', 'charge: 3 t', 'charge: 2 t'],
    ['nitrogen', 'flow: 28 m3/h', 'flow: 29 m3/h'],
  ])('are found anew when %s changes', (_, from, to) => {
    const changed = seasonOf((text) => text.replace(from, to));
    expect(withCourses(changed, atHand).courses).not.toBe(atHand);
  });

  it('keep with them what was tried on them', () => {
    let made = 0;
    const make = () => {
      made += 1;
      return made;
    };
    expect(onceFor(atHand, 'a test', make)).toBe(1);
    expect(onceFor(atHand, 'a test', make)).toBe(1);
    expect(onceFor(undefined, 'a test', make)).toBeUndefined();
  });
});
