import { describe, expect, it } from 'vitest';
import { codesThatEnd, isTooLate } from '../../src/findings/happened';
import { hasRule } from '../../src/findings/rules';
import { readPlan } from '../../src/plan/read';
import { findingsOnExample, readPage } from './page';

/** A fill of the example plan that is over, whatever was planned for it. */
const OVER = `
progress:
  R1-gala: { first-bin: 2026-09-05, last-bin: 2026-09-15, sealed: 2026-09-17, set-point: 2026-09-20, opened: 2026-11-16, emptied: 2026-11-27 }
`;

describe('what has happened is no longer complained of as if it were planned', () => {
  it.each([...codesThatEnd])('%s is a rule, and falls silent about a room that is empty', (code) => {
    expect(hasRule(code)).toBe(true);
    for (const example of readPage(code).wrong) {
      if (/^progress:/m.test(example) || example.startsWith('# the whole plan')) continue;
      const about = findingsOnExample(example + OVER)
        .filter((finding) => finding.code === code)
        .map(({ fingerprint }) => fingerprint);
      expect(about.filter((text) => /:R1-gala(\/|$)/.test(text))).toEqual([]);
    }
  });

  it('but a claim that an opening on record left no days for is told when the room is empty too', () => {
    const lawful = readPage('claim-before-law-allows').right[0]?.replace(/^ *open: .*\n/m, '') ?? '';
    const told = (opened: string, low = ', low-oxygen: 2026-09-20') =>
      findingsOnExample(`${lawful}${OVER.replace('opened: 2026-11-16', `opened: ${opened}${low}`)}`).filter(
        ({ code }) => code === 'claim-before-law-allows',
      );
    // 45 days of Gala from 20 September, or from sealing on the 17th where no day of 5 % is on record.
    expect(told('2026-11-04')).toEqual([]);
    expect(told('2026-11-03').map(({ message }) => message)).toEqual([
      expect.stringContaining(
        'opened on 2026-11-03, sooner than the rule of Washington asks: Gala 44 of 45 days',
      ),
    ]);
    expect(told('2026-11-01', '')).toEqual([]);
    expect(told('2026-10-31', '')[0]?.message).toContain('Gala at most 44 of 45 days');
  });

  const plan = readPlan([
    {
      path: 'a.lotplan.yaml',
      text: 'lotwright: 1\nprogress:\n  a/b: { last-bin: 2026-09-15 }\n  c: { first-bin: 2026-09-02 }\n',
    },
  ]);
  const problem = (code: string, about: string) => ({
    code,
    about,
    message: '',
    at: { file: '', start: 0, end: 0 },
  });

  it('is known by the fill that a problem is about, with a slash in its name too', () => {
    expect(isTooLate(plan, problem('weak-lot-shortens-room', 'a/b/L1'))).toBe(true);
    expect(isTooLate(plan, problem('room-partly-filled', 'a/b'))).toBe(true);
    expect(isTooLate(plan, problem('room-partly-filled', 'a'))).toBe(false);
  });

  it('is told while it can still be changed, and where no rule ends', () => {
    expect(isTooLate(plan, problem('room-partly-filled', 'c'))).toBe(false);
    expect(isTooLate(plan, problem('sealed-late', 'a/b'))).toBe(false);
    expect(isTooLate(plan, problem('lot-not-placed', 'a/b'))).toBe(false);
  });
});

describe('records', () => {
  it('of a fill that there is not are told as an unknown name', () => {
    const found = findingsOnExample('progress:\n  R1-gela: { first-bin: 2026-09-05 }\n');
    const unknown = found.find(({ code }) => code === 'unknown-reference');
    expect(unknown?.message).toContain('No fill `R1-gela` is defined in this plan. Is `R1-gala` meant?');
  });

  it('that came after the days planned are no mistake of the plan', () => {
    const late = findingsOnExample(
      'progress:\n  R1-gala: { first-bin: 2026-09-06, last-bin: 2026-09-18, lots: { L1: 140, L2: 146 }, sealed: 2026-09-19 }\n',
    );
    expect(late.map(({ code }) => code)).toEqual(['caution-before-opening']);
  });

  it('of more than was estimated are no mistake either', () => {
    const more = findingsOnExample(
      `lots:
  L2: { variety: Gala, picked: 2026-09-10..2026-09-15, bins: 140, received-by-day: { 2026-09-12: 80, 2026-09-15: 66 }, maturity: { starch: 2.9, firmness: 82 N } }
progress:
  R1-gala: { first-bin: 2026-09-05, last-bin: 2026-09-15, lots: { L1: 140, L2: 146 }, sealed: 2026-09-17 }
`,
    );
    expect(more.map(({ code }) => code)).toEqual(['caution-before-opening']);
  });
});
