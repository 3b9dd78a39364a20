import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { readPlan } from '../../src/plan/read';
import { fixAllEdits } from '../../src/server/services/fix-all';
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

  // A record goes to a fill by its name: two are one letter away, and which is meant only the planner knows.
  test('is a choice where two names are as near, and nothing is written unasked', () => {
    const fill = (id: string) =>
      `  ${id}: { room: R1, regime: gala-standard, first-bin: 2026-09-05, last-bin: 2026-09-15, sealed: 2026-09-17, lots: { L1: 1 } }\n`;
    const told = (fills: string) => {
      const text = `lotwright: 1\nfills:\n${fills}progress:\n  R1-galc: { first-bin: 2026-09-05 }\n`;
      const plan = readPlan([{ path: 'a.lotplan.yaml', text }]);
      const findings = findingsOf(computeSeason(plan));
      return {
        found: findings.find(({ message }) => message.startsWith('No fill `R1-galc` is defined')),
        unasked: fixAllEdits(plan, findings, 'a.lotplan.yaml').map(({ newText }) => newText),
      };
    };
    const two = told(fill('R1-gala') + fill('R1-galb'));
    expect(two.found?.message).toContain('Is `R1-gala` or `R1-galb` meant?');
    expect(two.found?.fixes.map(({ title }) => title)).toEqual([
      'Change to `R1-gala`',
      'Change to `R1-galb`',
    ]);
    expect(two.unasked).toEqual([]);
    const one = told(fill('R1-gala'));
    expect(one.found?.message).toContain('Is `R1-gala` meant?');
    expect(one.unasked).toEqual(['R1-gala']);
  });

  test('is the known spelling of a variety, for orders go by the name as it is written', () => {
    const lot = (variety: string, more = '') =>
      findingsOnExample(`${more}lots:
  L1: { variety: ${variety}, picked: 2026-09-05..2026-09-10, bins: 140, received: 140, field-temperature: 17 °C }
`).filter(({ code }) => code === 'unknown-reference');
    for (const [written, meant] of [
      ['braeburn', 'Braeburn'],
      ['Golden  delicious', 'Golden Delicious'],
      ['red delicious', 'Red Delicious'],
    ] as const)
      expect(lot(written)).toMatchObject([
        { severity: 'warning', fixes: [{ title: `Change to \`${meant}\`` }] },
      ]);
    expect(lot('Golden-Delicious')).toMatchObject([
      { severity: 'error', fixes: [{ title: 'Change to `Golden Delicious`' }] },
    ]);
    expect([lot('Braeburn'), lot('Red Delicious')]).toEqual([[], []]);
    // What the plan itself defines is spelled as it defines it.
    const own = 'varieties:\n  braeburn: { storage-life: 7 months, source: own records }\n';
    expect(lot('braeburn', own)).toEqual([]);
  });
});
