import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../src/plan/edits';
import { findingsOnExample, roomOfExamples } from './page';

/** The room of the examples, as high as six bins of 78 cm and 1.1 m, with these keys beside. */
const room = (beside: string) => roomOfExamples({ beside });

const lot = (maturity: string) =>
  `lots:\n  L2: { variety: Gala, picked: 2026-09-10..2026-09-15, bins: 146, received: 146, maturity: ${maturity} }\n`;

const bin = (tare: string) =>
  `bins:\n  plastic-1200: { outside: { length: 1.20 m, width: 1.00 m, height: 0.78 m }, net-fruit: 300 kg, tare: ${tare}, material: plastic }\n`;

function told(example: string, code: string) {
  return findingsOnExample(example).filter((finding) => finding.code === code);
}

describe('a starch index', () => {
  it.each([
    ['{ starch: 9, firmness: 82 N }', 'a starch index of 9 cannot be on a scale from 1 to 8, `one-to-eight`'],
    ['{ starch: 7, starch-scale: one-to-six }', 'a starch index of 7 cannot be on a scale from 1 to 6'],
    ['{ starch: 0.5 }', 'a starch index of 0.5 cannot be on a scale from 1 to 8'],
  ])('that its scale does not have is an error: %s', (maturity, message) => {
    const [finding, ...others] = told(lot(maturity), 'implausible-value');
    expect(others).toEqual([]);
    expect(finding?.severity).toBe('error');
    expect(finding?.message).toContain(message);
    const from = lot(maturity).indexOf('starch: ') + 'starch: '.length;
    expect(finding?.at.start).toBe(from);
  });

  it.each([
    '{ starch: 1 }',
    '{ starch: 8 }',
    '{ starch: 10, starch-scale: one-to-ten }',
    '{ firmness: 82 N }',
  ])('at the ends of its scale is fine: %s', (maturity) =>
    expect(told(lot(maturity), 'implausible-value')).toEqual([]),
  );
});

describe('the tare of a bin', () => {
  it.each(['380 kg', '3.8 kg'])('of %s beside 300 kg of fruit is a slip', (tare) => {
    const [finding] = told(bin(tare), 'implausible-value');
    expect(finding?.severity).toBe('warning');
    expect(finding?.message).toMatch(
      /a tare of .* is hard to believe; between 9\S* kg and 120\S* kg is usual/,
    );
  });

  it('of a plastic bin and of a wooden one is fine', () => {
    for (const tare of ['38 kg', '63.5 kg']) expect(told(bin(tare), 'implausible-value')).toEqual([]);
  });
});

describe('the day of a maturity test', () => {
  const tested = (day: string) => `{ tested: ${day}, starch: 2.9, firmness: 82 N }`;

  it('a month after picking tells of fruit out of store', () => {
    const [finding] = told(lot(tested('2026-10-14')), 'dates-out-of-order');
    expect(finding?.severity).toBe('warning');
    expect(finding?.message).toContain(
      'tested on 2026-10-14, more than 3 days after its last picking (2026-09-15)',
    );
    expect(finding?.message).toContain('record the test under `samples`');
    expect(finding?.fixes).toEqual([]);
  });

  it('of the year before is a year that was copied along, and the fix puts it right', () => {
    const text = lot(tested('2025-09-09'));
    const [finding] = told(text, 'dates-out-of-order');
    expect(finding?.message).toContain('more than 42 days before its first picking (2026-09-10)');
    const [fix] = finding?.fixes ?? [];
    expect(applyEdits(text, fix?.edits ?? [])).toBe(lot(tested('2026-09-09')));
  });

  it('before picking, in its days and just after is fine', () => {
    for (const day of ['2026-08-20', '2026-09-09', '2026-09-12', '2026-09-18'])
      expect(told(lot(tested(day)), 'dates-out-of-order')).toEqual([]);
  });
});

describe('the clearances of a room', () => {
  it('that leave no bin under the ceiling are an error', () => {
    const [finding] = told(room('clearance: { ceiling: 5.6 m }'), 'stack-too-high');
    expect(finding?.severity).toBe('error');
    expect(finding?.message).toContain(
      'no bin of 0.78 m fits under a ceiling of 5.80 m with 5.60 m free above it',
    );
  });

  it('that a stated stack reaches into are told, with what is left and what fits', () => {
    const example = room('stack: 7\n    clearance: { ceiling: 80 cm }');
    const [finding] = told(example, 'stack-too-high');
    expect(finding?.severity).toBe('warning');
    // 5.8 m less seven bins of 0.78 m.
    expect(finding?.message).toContain(
      'leave 0.34 m under the ceiling, and `clearance: ceiling` asks for 0.80 m. 6 fit',
    );
    expect(told(room('stack: 7'), 'stack-too-high')).toEqual([]);
  });

  it('of more than a room has are hard to believe', () => {
    const codes = ['clearance: { walls: 20 m }', 'clearance: { gap: 5 m }'].map(
      (beside) => told(room(beside), 'implausible-value')[0]?.message,
    );
    expect(codes[0]).toContain('a clearance at the walls of 20.00 m is hard to believe');
    expect(codes[1]).toContain('a gap between bins of 5.00 m is hard to believe');
  });

  it('that leave no place beside stated places disagree with them', () => {
    const [finding] = told(room('places: 292\n    clearance: { walls: 3 m }'), 'places-disagree');
    expect(finding?.message).toContain('292 places stated, but size, bin and clearances leave none');
  });
});
