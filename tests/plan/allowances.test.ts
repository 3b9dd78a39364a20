import { describe, expect, it } from 'vitest';
import { readPlan } from '../../src/plan/read';

/** Each comment's code and reason, and the text it covers. */
function allowances(text: string) {
  const plan = readPlan([{ path: 'a', text }]);
  const covered = plan.allowances.map(({ code, reason, at, covers }) => ({
    code,
    reason,
    comment: text.slice(at.start, at.end),
    covers: text.slice(covers.start, covers.end),
  }));
  return { covered, codes: plan.problems.map(({ code }) => code) };
}

describe('comments that allow a finding', () => {
  it('at the end of a line cover the line', () => {
    const { covered } = allowances(
      'rooms:\n  R1:\n    stack: 9 # lotwright: allow stack-too-high -- low pallets\n    places: 3\n',
    );
    expect(covered).toEqual([
      {
        code: 'stack-too-high',
        reason: 'low pallets',
        comment: '# lotwright: allow stack-too-high -- low pallets',
        covers: '    stack: 9 # lotwright: allow stack-too-high -- low pallets',
      },
    ]);
  });

  it('above a line cover it, with all that stands below its key', () => {
    const text =
      'rooms:\n  R1:\n    # lotwright: allow a -- b\n    # and a word more\n\n    inside:\n      length: 9 m\n      width: 8 m\n    stack: 9\n';
    expect(allowances(text).covered[0]?.covers).toBe('inside:\n      length: 9 m\n      width: 8 m');
  });

  it('above an entry cover the whole entry', () => {
    for (const end of ['\n', '\r\n']) {
      const text =
        `rooms:\n  # lotwright: allow a -- b\n  R1:\n    stack: 9\n    places: 3\n\n  R2: { stack: 9 }\n`.replaceAll(
          '\n',
          end,
        );
      expect(allowances(text).covered.map(({ covers }) => covers)).toEqual([
        `R1:\n    stack: 9\n    places: 3`.replaceAll('\n', end),
      ]);
    }
    expect(allowances('# lotwright: allow a -- b\npolicy:\n  confidence: 80 %\n').covered[0]?.covers).toBe(
      'policy:\n  confidence: 80 %',
    );
  });

  it('stay with their entry when what is above them changes', () => {
    const text =
      'lots:\n  L1: { bins: 3 } # lotwright: allow a -- b\n  # lotwright: allow c -- d\n  L2: { bins: 4 }\n';
    expect(allowances(text).covered.map(({ code, covers }) => [code, covers])).toEqual([
      ['a', '  L1: { bins: 3 } # lotwright: allow a -- b'],
      ['c', 'L2: { bins: 4 }'],
    ]);
  });

  it('need a code and a reason', () => {
    for (const words of [
      'allow',
      'allow stack-too-high',
      'allow stack-too-high --',
      'alow a -- b',
      'allow A -- b',
      '',
    ]) {
      const { covered, codes } = allowances(`lotwright: 1\npolicy: {} # lotwright: ${words}\n`);
      expect(covered, words).toEqual([]);
      expect(codes, words).toEqual(['allowance-without-reason']);
    }
  });

  it('are comments, not text that looks like one', () => {
    const { covered, codes } = allowances(
      "lotwright: 1\nseason:\n  name: 'a # lotwright: allow a -- b'\n  currency: a#lotwright: b\n",
    );
    expect(covered).toEqual([]);
    expect(codes).not.toContain('allowance-without-reason');
  });
});
