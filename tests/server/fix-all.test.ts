import { describe, expect, it } from 'vitest';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';
import { fixAllEdits } from '../../src/server/services/fix-all';

import { samplePlan } from './plans';

const FRUIT = 'fruit.lotplan.yaml';
const files = samplePlan('first-season');
const fruit = files.find(({ path }) => path === FRUIT)?.text ?? '';

/** The fruit's file with a slip in one of the plan's files, after everything was fixed at once, three times over. */
function fixed(slip: string, by: string, path = FRUIT): { readonly slipped: string; readonly after: string } {
  let now = files.map((file) => (file.path === path ? { path, text: file.text.replace(slip, by) } : file));
  const textOf = (all: typeof now) => all.find((file) => file.path === FRUIT)?.text ?? '';
  const slipped = textOf(now);
  for (let time = 0; time < 3; time++) {
    const season = computeSeason(readPlan(now));
    const edits = fixAllEdits(season.plan, findingsOf(season), FRUIT);
    now = now.map((file) => {
      const own = edits.filter(({ at }) => at.file === file.path);
      return { path: file.path, text: applyEdits(file.text, own) };
    });
  }
  return { slipped, after: textOf(now) };
}

describe('all slips of writing fixed at once', () => {
  it.each([
    ['a key', '    sealed: 2026-09-18', '    ealed: 2026-09-18'],
    ['a variety', 'variety: Braeburn', 'variety: Braebrun'],
    ['the space behind a colon', 'field-temperature: 17 °C', 'field-temperature:17 °C'],
    ['a date', '    sealed: 2026-09-18', '    sealed: 18.09.2026'],
  ])('is %s as it was meant', (_what, meant, typed) => {
    expect(fruit).toContain(meant);
    expect(fixed(meant, typed).after).toBe(fruit);
  });

  // What else is found follows from the slip: to mend that would write into the plan what nobody meant.
  it.each([
    ['a lot that is indented as its section', '\n  D3: {', '\nD3: {'],
    ['a lot that is commented out', '\n  B1: {', '\n  # B1: {'],
    ['a key two columns too deep', '\n    carbon-dioxide: 1.8', '\n      carbon-dioxide: 1.8'],
    ['a line indented with a tab', '\n    regime: ', '\n\t\tregime: '],
  ])('leaves all other lines alone where the slip is %s', (_what, written, typed) => {
    expect(fruit).toContain(written);
    const { slipped, after } = fixed(written, typed);
    const trimmed = (text: string) => text.split('\n').map((line) => line.trim());
    expect(trimmed(after)).toEqual(trimmed(slipped));
  });

  it('leaves the rooms of fills alone where a room cannot be read in another file', () => {
    const { slipped, after } = fixed('\n  R2:', '\nR2:', 'orrowby.lotplan.yaml');
    expect(after).toBe(slipped);
  });
});
