import { describe, expect, it } from 'vitest';
import { rules } from '../../src/findings/rules';
import { applyEdits } from '../../src/plan/edits';
import { isCautioned } from '../../src/room/caution';
import { findingsOnExample, pageCodes, readPage, slipsOn } from './page';

const HEADINGS = ['What is wrong', 'Why it matters in the room', 'What to do', 'Wrong', 'Right'];

/** Megabytes, stray bytes and lone carriage returns cannot be shown on a page; the reading tests have them. */
const WITHOUT_EXAMPLE = new Set(['file-too-large', 'too-many-problems', 'line-ending', 'not-text']);

/** Whether a page's own words, not its examples, are of opening or of going in. */
function speaksOfOpening(text: string): boolean {
  return /\b(?:open(?:s|ed|ing)?|enter(?:s|ed|ing)?|go(?:es)? in)\b/i.test(
    text.replace(/^```[\s\S]*?^```/gm, ''),
  );
}

describe("the findings' pages", () => {
  it('exist for every rule, and for nothing else', () => {
    expect(pageCodes()).toEqual(rules.map(({ code }) => code).sort());
  });

  it('cover at least thirty rules in nine families', () => {
    expect(rules.filter(({ find }) => find).length).toBeGreaterThanOrEqual(30);
    expect(new Set(rules.map(({ family }) => family)).size).toBe(9);
  });

  it('an example plan that is in order gives no finding but the caution', () => {
    expect(findingsOnExample('lotwright: 1\n').map(({ code }) => code)).toEqual(['caution-before-opening']);
  });

  it('that speak of opening or entering a room say what comes first', () => {
    const pages = rules.map(({ code }) => readPage(code)).filter(({ text }) => speaksOfOpening(text));
    expect(pages.map(({ code }) => code)).toContain('weight-loss-high');
    for (const { text } of pages)
      for (const word of [
        'oxygen',
        'carbon dioxide',
        'calibrated instrument',
        'licensed people',
        'ocal codes',
      ])
        expect(text.replace(/\s+/g, ' ')).toContain(word);
  });

  it.each(['claim-before-law-allows', 'weight-loss-high', 'softer-than-market-wants', 'pin-outside-window'])(
    'as %s, which advises a week of opening, the finding itself says what comes first',
    (code) => {
      const [wrong = ''] = readPage(code).wrong;
      const found = findingsOnExample(wrong).find((finding) => finding.code === code);
      expect(isCautioned(found?.message ?? '')).toBe(true);
    },
  );

  it.each([
    ['yaml-syntax', 11],
    ['tab-indent', 2],
  ])('of %s show the usual slips, each with the line as it is right, which the fix writes', (code, count) => {
    const slips = slipsOn(readPage(code));
    expect(slips).toHaveLength(count);
    for (const { wrong, right } of slips) {
      const told = findingsOnExample(wrong).filter((finding) => finding.code === code);
      expect(told, wrong).toHaveLength(1);
      expect(applyEdits(wrong, told[0]?.fixes[0]?.edits ?? [])).toBe(right);
      expect(findingsOnExample(right).map((finding) => finding.code)).not.toContain(code);
    }
  });

  for (const rule of rules) {
    describe(rule.code, () => {
      it('says what is wrong, why it matters and what to do', () => {
        const page = readPage(rule.code);
        expect(page.text.startsWith(`# ${rule.code}\n`)).toBe(true);
        expect(page.headings.slice(0, 3)).toEqual(HEADINGS.slice(0, 3));
        expect(page.text).toContain(`**${rule.severity}**`);
        expect(page.text).toContain(`**${rule.family}**`);
      });
      if (WITHOUT_EXAMPLE.has(rule.code)) return;
      it('is found in every wrong example', () => {
        const { wrong } = readPage(rule.code);
        expect(wrong.length).toBeGreaterThan(0);
        for (const example of wrong)
          expect(findingsOnExample(example).map(({ code }) => code)).toContain(rule.code);
      });
      it('is not found in any right example', () => {
        const { right } = readPage(rule.code);
        expect(right.length).toBeGreaterThan(0);
        for (const example of right)
          expect(findingsOnExample(example).map(({ code }) => code)).not.toContain(rule.code);
      });
    });
  }
});
