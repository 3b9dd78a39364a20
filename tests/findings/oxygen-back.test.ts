import { expect, it } from 'vitest';
import { findingsOnExample, readPage } from './page';

/** The scrubber of the plan around the examples, at rest for a month. */
const AT_REST = `plant:
  scrubbers:
    S1: { kind: carbon, removal: 60 kg/day, at-level: 3 %, out-of-use: [2026-09-20..2026-10-20] }
`;

it('oxygen that is back at its set-point when the room opens is not said to climb', () => {
  const found = findingsOnExample(AT_REST);
  expect(found.map(({ code }) => code)).toContain('carbon-dioxide-above-limit');
  expect(found.filter(({ code }) => code === 'oxygen-climbs')).toEqual([]);
});

it('oxygen that is said to climb is shown to be above its set-point', () => {
  for (const example of readPage('oxygen-climbs').wrong) {
    const { message = '' } = findingsOnExample(example).find(({ code }) => code === 'oxygen-climbs') ?? {};
    const [, setPoint, end] = /above its ([\d.]+) %, to ([\d.]+) %/.exec(message) ?? [];
    expect(Number(end)).toBeGreaterThan(Number(setPoint));
  }
});
