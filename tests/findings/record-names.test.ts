import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';

const EXAMPLE = readFileSync(new URL('example-plan.lotplan.yaml', import.meta.url), 'utf8');

function found(text: string) {
  const season = computeSeason(readPlan([{ path: 'a.lotplan.yaml', text }]), { release: 'none' });
  return findingsOf(season).filter(({ code }) => code === 'record-without-demand');
}

const RECORDS = (first: string, market: string, packClass: string, variety: string) => `${EXAMPLE}
packed:
  P1: { lot: L1, fill: R1-gala, day: 2026-11-18, bins: 40, cartons: { ${first}: 410, second: 120 } }
sales:
  V1: { market: ${market}, variety: ${variety}, class: ${packClass}, week: 2026-W47, cartons: 400 }
`;

describe('records of names that no demand has', () => {
  test('are told with the nearest name, and the fixes make the plan that tells nothing', () => {
    const text = RECORDS('firs', 'Home', 'firsts', 'Gala');
    const problems = found(text);
    expect(problems.map(({ message }) => message.match(/`[^`]+`/g))).toEqual([
      ['`firs`', '`first`'],
      ['`Home`', '`home`'],
      ['`firsts`', '`first`'],
    ]);
    const edits = problems.flatMap(({ fixes }) => fixes?.flatMap((fix) => fix.edits) ?? []);
    const fixed = applyEdits(text, edits);
    expect(fixed).toBe(RECORDS('first', 'home', 'first', 'Gala'));
    expect(found(fixed)).toEqual([]);
  });

  test('that are like none are told with those there are, and nothing is offered', () => {
    const [problem, ...others] = found(RECORDS('first', 'home', 'first', 'Braeburn'));
    expect(others).toEqual([]);
    expect(problem?.message).toContain('the variety `Braeburn`, which no demand names');
    expect(problem?.message).toContain('Those of the demands are `Gala`');
    expect(problem?.fixes).toEqual([]);
  });

  test('are nothing in a plan without demands', () => {
    const text = RECORDS('frist', 'Home', 'fist', 'Gala').replace(/^demand:\n(?: .*\n)+/m, '');
    expect(text).not.toContain('home-gala');
    expect(found(text)).toEqual([]);
  });
});
