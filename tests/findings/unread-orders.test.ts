import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

const ABOUT_DEMAND = ['room-mostly-unsold', 'supply-without-demand', 'demand-without-supply'];

/** What is found of supply and demand in the first season, after some of its text was written otherwise. */
function found(...changes: readonly (readonly [was: string, now: string])[]): string[] {
  const written = sampleFiles('first-season');
  for (const [was] of changes)
    expect(
      written.some(({ text }) => text.includes(was)),
      was,
    ).toBe(true);
  const files = written.map(({ path, text }) => ({
    path,
    text: changes.reduce((all, [was, now]) => all.replaceAll(was, now), text),
  }));
  return findingsOf(computeSeason(readPlan(files)))
    .filter(({ code }) => ABOUT_DEMAND.includes(code))
    .map(({ code, message }) => `${code}: ${message.split(/[ ,]/)[0]}`);
}

describe('what follows from an order that cannot be read', () => {
  test('is not told of the rooms that it would have bought from', () => {
    // The only order of Braeburn: with nothing ordered, its room is unsold, and that is worth a finding.
    expect(found(['cartons: 390', 'cartons: 1'])).toEqual(['room-mostly-unsold: R4-braeburn']);
    for (const unread of ['cartons: many', 'cartons: 3,900', 'cartons: 390 cartons', 'carton: 390'])
      expect(found(['cartons: 390', unread])).toEqual([]);
    expect(found(['weeks: 2027-W08..2027-W14', 'weeks: spring'])).toEqual([]);
  });

  test('is not told of other varieties either, where the order may be of any', () => {
    const braeburn: readonly [string, string] = [
      '    variety: Braeburn\n    class',
      '    variety: [Braeburn]\n    class',
    ];
    expect(found(braeburn)).toEqual([]);
    // An order of another variety says nothing of this one.
    expect(found(['cartons: 390', 'cartons: 1'], ['cartons: 360', 'cartons: many'])).toEqual([
      'room-mostly-unsold: R4-braeburn',
    ]);
  });
});

describe('what follows from a room that cannot be computed', () => {
  test('is not that no room holds what its fill names', () => {
    expect(found(['first-bin: 2026-10-05', 'first-bin: autumn'], ['room: R4', 'room: [R4]'])).toEqual([]);
  });
});
