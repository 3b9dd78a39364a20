import { describe, expect, it, test } from 'vitest';
import { findingsOnExample, readPage } from './page';

/** A lot whose bins nobody can read is fruit all the same: what is too much without it is so the more with it. */

function messageOf(code: string, example: string): string {
  return findingsOnExample(example).find((finding) => finding.code === code)?.message ?? '';
}

const wrong = (code: string) => readPage(code).wrong[0] ?? '';

/** The fill of the plan around the examples with the bins of a third lot misspelt, a letter O for a nought. */
function withUnread(example: string): string {
  const lots = '    lots: { L1: 140, L2: 146, L3: 2O }\n';
  if (example.includes('fills:')) return example.replace(/ {4}lots: .*\n/, lots);
  return `${example}fills:
  R1-gala:
    room: R1
    regime: gala-standard
    first-bin: 2026-09-05
    last-bin: 2026-09-15
    sealed: 2026-09-17
${lots}`;
}

const REST =
  'Not all of the fruit in R1-gala is known, so it is more than told here; what would do is told once it is.';

describe('of a fill with a lot that cannot be read', () => {
  test.each([
    [
      'lime-short',
      /at the latest and has to be changed at least \d+ times? before its rooms open/,
      /would last/,
    ],
    ['refrigeration-group-overloaded', /together ask for at least [\d.]+ kW/, /It would keep up if you/],
    ['cooling-overloaded', /the heat comes to at least [\d.]+ kW/, /A cooler of [\d.]+ kW would take it/],
    ['intake-too-fast', /takes at least \d+ bins/, /days? to fill it|policy: arrivals/],
  ])('%s is told as at least so much, without a cure that would be too small', (code, atLeast, cure) => {
    const known = messageOf(code, wrong(code));
    expect(known).toMatch(cure);
    expect(known).not.toMatch(atLeast);
    const unread = messageOf(code, withUnread(wrong(code)));
    expect(unread).toMatch(atLeast);
    expect(unread).toContain(REST);
    expect(unread).not.toMatch(cure);
  });

  it('no day is told on which all fruit would be cold', () => {
    const group = wrong('refrigeration-group-overloaded');
    expect(messageOf('sealed-before-cold', group)).toMatch(/all fruit is cold on .* Seal it on/);
    expect(messageOf('sealed-before-cold', withUnread(group))).toBe('');
  });
});
