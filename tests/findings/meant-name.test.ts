import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';
import { findingsOnExample } from './page';

function unknown(was: string, now: string): string[] {
  const files = sampleFiles('first-season').map(({ path, text }) => ({ path, text: text.replace(was, now) }));
  return findingsOf(computeSeason(readPlan(files)))
    .filter(({ code }) => code === 'unknown-reference')
    .flatMap(({ message, fixes }) => [message, ...fixes.map(({ title }) => title)]);
}

describe('the name that was meant', () => {
  test('is found where two letters stand the other way round', () => {
    expect(unknown('regime: gala-own', 'regime: gala-onw')).toEqual([
      expect.stringContaining('Is `gala-own` meant?'),
      'Change to `gala-own`',
    ]);
  });

  // With R4's fill sent to a room that there is not, R4 is the one that is free; R1 comes before it.
  test('is a room that no fill has, where several are alike', () => {
    expect(unknown('room: R4', 'room: R9')).toEqual([
      expect.stringContaining('Is `R4` meant?'),
      'Change to `R4`',
    ]);
  });

  test('is no lot that stands in the same fill already', () => {
    const told = (lots: string) =>
      findingsOnExample(`fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: 2026-09-17
    lots: { ${lots} }
`).find(({ code }) => code === 'unknown-reference');
    expect(told('L1: 140, L3: 146')).toMatchObject({
      message: 'No lot `L3` is defined in this plan. Is `L2` meant?',
      fixes: [{ title: 'Change to `L2`' }],
    });
    expect(told('L2: 146, L3: 140')).toMatchObject({
      message: 'No lot `L3` is defined in this plan. Is `L1` meant?',
    });
    const none = told('L1: 140, L2: 146, L3: 20');
    expect(none?.message).toContain('No lot `L3` is defined in this plan. Define it under `lots`');
    expect(none?.fixes).toEqual([]);
  });

  test('is told with the section of the plant where it would be defined', () => {
    expect(unknown('regime: gala-own', 'regime: zz')[0]).toContain('Define it under `regimes`, or');
    const [machine] = unknown('group: engine-room', 'group: zz');
    expect(machine).toContain('Define it under `plant: refrigeration`, or');
  });
});
