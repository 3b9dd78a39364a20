import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';
import { LOTS, ROOM, SLIPS } from './slips';

const textOf = (plan: string) => `lotwright: 1\n${plan}`;
const problemsOf = (text: string) => readPlan([{ path: 'a.lotplan.yaml', text }]).problems;

describe('a slip within a line', () => {
  it.each(SLIPS)('is told as what it is: $what', ({ plan, written, typed, at, says, fixed }) => {
    expect(plan).toContain(written);
    const text = textOf(plan.replace(written, () => typed));
    const problems = problemsOf(text);
    const told = problems.filter(({ message }) => says.test(message));
    expect(told, JSON.stringify(problems.map(({ message }) => message))).toHaveLength(1);
    const [problem] = told;
    if (!problem) return;
    expect(text.slice(problem.at.start, problem.at.end)).toBe(at);
    expect(problem.message).toMatch(/^[`A-Z].*[.]$/s);
    if (fixed === 'none') expect(problem.fixes).toBeUndefined();
    else {
      const mended = applyEdits(text, problem.fixes?.[0]?.edits ?? []);
      expect(mended).toBe(textOf(plan.replace(written, () => fixed ?? written)));
      expect(problemsOf(mended)).toEqual(
        problemsOf(textOf(plan)).map((one) => expect.objectContaining({ code: one.code })),
      );
    }
  });

  it('is told alone, without what the reader stumbles over behind it', () => {
    const syntaxOf = (text: string) => problemsOf(text).filter(({ code }) => code === 'yaml-syntax');
    for (const { plan, written, typed } of SLIPS)
      expect(syntaxOf(textOf(plan.replace(written, () => typed))).length, typed).toBeLessThanOrEqual(1);
  });

  it.each([
    [
      'no space behind colons',
      ROOM,
      /^( {4}(?:bin-type|lost-places|ready)): /gm,
      '$1:',
      /`bin-type`.*at 3 places/,
    ],
    [
      'no colon behind keys',
      ROOM,
      /^( {4}(?:bin-type|lost-places|ready)): /gm,
      '$1 ',
      /`bin-type`.*at 3 places/,
    ],
    ['no commas in braces', LOTS, /(bins: 50|-07|Meadow 2),/g, '$1', /`picked`.*at 3 places/],
    ['semicolons in braces', LOTS, /(G1.*?Gala|Long Meadow 2),/g, '$1;', /semicolon.*at 2 places/],
  ])('that is made over and over in an entry is told once: %s', (_what, plan, written, typed, says) => {
    const text = textOf(plan.replace(written, typed));
    const told = problemsOf(text).filter(({ code }) => code === 'yaml-syntax');
    expect(told.map(({ message }) => message)).toEqual([expect.stringMatching(says)]);
    expect(applyEdits(text, told[0]?.fixes?.[0]?.edits ?? [])).toBe(textOf(plan));
  });

  it('of spaces that are none is told once for a plan that was copied with thousands of them', () => {
    const copied = textOf(`# from a page\n${'\u00a0\u00a0\n'.repeat(70_000)}${LOTS}`);
    const told = problemsOf(copied).filter(({ code }) => code === 'yaml-syntax');
    expect(told.map(({ message }) => message)).toEqual([expect.stringMatching(/140000 such places/)]);
    // More than an editor should be asked to change at once.
    expect(told[0]?.fixes).toEqual([]);
    const few = textOf(LOTS.replaceAll(': ', ':\u00a0'));
    const [one] = problemsOf(few).filter(({ code }) => code === 'yaml-syntax');
    expect(one?.fixes?.map(({ title }) => title)).toEqual(['Use plain spaces in this file']);
    expect(applyEdits(few, one?.fixes?.[0]?.edits ?? [])).toBe(textOf(LOTS));
  });

  it('leaves spaces of other kinds alone where they say something', () => {
    const text = textOf(
      ROOM.replace('# under the', '#\u00a0under\u00a0the').replace('13.1 m', '13.1\u00a0m'),
    );
    expect(problemsOf(text).filter(({ code }) => code === 'yaml-syntax')).toEqual([]);
    const quoted = 'lots:\n  L1:\n    block: "Long Meadow:\u00a02"\n';
    expect(problemsOf(textOf(quoted)).filter(({ code }) => code === 'yaml-syntax')).toEqual([]);
  });
});
