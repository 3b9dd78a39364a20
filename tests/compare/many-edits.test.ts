import { describe, expect, test } from 'vitest';
import { comparePlans } from '../../src/compare/compare';
import type { Comparison } from '../../src/compare/types';
import { readPlan } from '../../src/plan/read';
import { weeksText } from '../../src/report/compare-headline';
import { causeText } from '../../src/report/compare-words';
import { sampleFiles } from '../samples/sample';
import { fortyEdits, type TextChange, withChanges } from './forty-edits';

/** With more edits than are tried each alone, none is blamed that does nothing. */

const files = sampleFiles('first-season');
const old = readPlan(files);
const UNITS = { system: 'metric', currency: 'EUR' } as const;
const [FRUIT, BUILDINGS] = ['fruit', 'orrowby'] as const;

/** Bins received and fruit tested anew in the same room, and what the market and the packhouse say of its variety. */
const innocent: readonly TextChange[] = [
  [FRUIT, 'bins: 80, received: 78', 'bins: 80, received: 80'],
  [FRUIT, 'bins: 80, received: 81', 'bins: 80, received: 83'],
  [FRUIT, 'bins: 75, received: 76', 'bins: 75, received: 77'],
  [BUILDINGS, 'lost-places: 4', 'lost-places: 3'],
  [BUILDINGS, 'price: 24.00', 'price: 24.10'],
  [BUILDINGS, 'price: 21.50', 'price: 21.60'],
  [BUILDINGS, 'Gala: { shares: { first: 62 %', 'Gala: { shares: { first: 61 %'],
];

function withInnocent(...changes: TextChange[]): Comparison {
  const now = readPlan(withChanges(files, [...innocent, ...changes]));
  return comparePlans(old, now, { seed: 1, courses: true }).comparison;
}

describe('of eight edits of one room, seven of which are innocent, the one that seals it late is named', () => {
  test.each([
    ['sealed: 2026-09-18', 'sealed: 2026-09-26', 'fill R2-gala: sealed 2026-09-18 \u2192 2026-09-26'],
    [
      'first-bin: 2026-09-08',
      'first-bin: 2026-09-02',
      'fill R2-gala: first-bin 2026-09-08 \u2192 2026-09-02',
    ],
  ])('%s becomes %s', (from, to, cause) => {
    const comparison = withInnocent([FRUIT, from, to]);
    expect(comparison.edits).toHaveLength(8);
    const late = comparison.consequences.filter(
      ({ newFinding, about, kind }) =>
        newFinding?.code === 'sealed-late' ||
        (kind === 'latest' && about.of === 'fill' && about.fill === 'R2-gala'),
    );
    expect(late.map(({ newFinding }) => newFinding?.code)).toContain('sealed-late');
    for (const one of late) expect(causeText(one, comparison, UNITS)).toBe(cause);
  });

  test('and where bins of a lot and a day of its fill were changed at once, the day is named first', () => {
    const comparison = withInnocent(
      [FRUIT, 'first-bin: 2026-09-08', 'first-bin: 2026-09-02'],
      [FRUIT, 'lots: { G4: 78, G5: 81', 'lots: { G4: 80, G5: 83'],
    );
    const late = comparison.consequences.find(({ newFinding }) => newFinding?.code === 'sealed-late');
    expect(late && causeText(late, comparison, UNITS)).toMatch(
      /^fill R2-gala: first-bin 2026-09-08 \S 2026-09-02 /,
    );
  });

  test('what only following the room through its gas shows is tried with each of them, too', () => {
    const comparison = withInnocent([BUILDINGS, 'after: 26 min', 'after: 6 min']);
    const climbs = comparison.consequences.find(({ newFinding }) => newFinding?.code === 'oxygen-climbs');
    // Its places were counted anew as well.
    expect(climbs && causeText(climbs, comparison, UNITS)).toBe(
      'room R2: tightness.after 26 \u2192 6 min (and 1 more)',
    );
  });
});

test('of more than two dozen edits some are tried together, and then it is said that it cannot be told which it is', () => {
  const season = sampleFiles('full-season');
  const now = readPlan(withChanges(season, fortyEdits));
  const { comparison } = comparePlans(readPlan(season), now, { seed: 1, courses: true });
  const several = comparison.consequences.filter(
    ({ causes }) => !causes.onlyTogether && (causes.parts[0]?.edits.length ?? 0) > 1,
  );
  expect(several.length).toBeGreaterThan(3);
  for (const one of several)
    expect(causeText(one, comparison, UNITS, 1)).toMatch(
      one.causes.untried
        ? / or .*\(not tried: nearest to what it is about\)/
        : / or .*\(tried together: which of them it is cannot be told\)/,
    );
  const single = comparison.consequences.find(({ causes }) => causes.parts[0]?.edits.length === 1);
  expect(single && causeText(single, comparison, UNITS)).not.toContain('cannot be told');
});

test('a comparison says why the same plan may be worth more or less beside another one', () => {
  // One price fewer and the weeks are sought for this year's plan, one more and they are sought for the changed one.
  const worth = (change: TextChange) => {
    const { comparison } = comparePlans(old, readPlan(withChanges(files, [change])), {
      seed: 1,
      courses: false,
    });
    return { of: comparison.weeksOf, text: weeksText(comparison) };
  };
  const [dearer, cheaper] = [
    worth([BUILDINGS, 'price: 24.00', 'price: 25.00']),
    worth([BUILDINGS, 'price: 24.00', 'price: 23.00']),
  ];
  expect([dearer.of, cheaper.of]).toEqual(['new', 'old']);
  expect(dearer.text).toContain('What a schedule is worth is told in these weeks');
  expect(cheaper.text).toContain('the same plan may open in others and be worth somewhat more or less');
});
