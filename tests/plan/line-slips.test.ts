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

  it.each(SLIPS)(
    'is mended in a file with CRLF as in one with LF: $what',
    ({ plan, written, typed, says }) => {
      const crlf = (text: string) => text.replaceAll('\n', '\r\n');
      const text = textOf(plan.replace(written, () => typed));
      const fixOf = (whole: string) =>
        problemsOf(whole).find(({ message }) => says.test(message))?.fixes?.[0];
      const mended = applyEdits(text, fixOf(text)?.edits ?? []);
      expect(applyEdits(crlf(text), fixOf(crlf(text))?.edits ?? [])).toBe(crlf(mended));
    },
  );

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

  it.each([
    ['a byte order mark before a section, of files that were joined', 'lots:', '\ufefflots:'],
    ['a zero-width space before an entry', '  L2:', '\u200b  L2:'],
    ['two between its spaces and its name', '  L2:', '  \u200b\u200bL2:'],
    ['a soft hyphen before a key', '    bins: 50', '  \u00ad  bins: 50'],
    ['non-breaking spaces before a key', '    bins: 50', '\u00a0\u00a0 \u00a0bins: 50'],
  ])('that cannot be seen leaves all else as it is read and told: %s', (_what, written, typed) => {
    const plan = `${ROOM}lots:\n  L1:\n    variety: Gala\n    bins: 50\n    picked: 2027-03\n  L2: { bins: 7,5 }\n`;
    const told = problemsOf(textOf(plan.replace(written, () => typed)));
    const odd = told.filter(({ about }) => about === 'odd-space');
    expect(odd).toHaveLength(1);
    const rest = told.filter(({ about }) => about !== 'odd-space').map(({ message }) => message);
    expect(rest).toEqual(problemsOf(textOf(plan)).map(({ message }) => message));
  });

  it('keeps a comment behind a dash that stands alone', () => {
    const text = textOf(ROOM.replace('    bin-type', '    - # to do\n    bin-type'));
    const [told] = problemsOf(text);
    expect(applyEdits(text, told?.fixes?.[0]?.edits ?? [])).toContain('\n     # to do\n    bin-type');
  });

  it('names a space that is none within a word by its number, which else looks like the one that is meant', () => {
    const [key] = problemsOf(textOf(ROOM.replace('bin-type', 'bin-\u00adtype')));
    expect(key?.message).toMatch(/has no key `bin-\[U\+00AD\]type`. Is `bin-type` meant/);
    const [variety] = problemsOf(textOf(LOTS.replace('Gala, block', 'Royal\u00a0Gala, block')));
    expect(variety?.message).toMatch(/^`Royal\[U\+00A0\]Gala` is not an identifier/);
  });
});

describe('a slip that may be meant in two ways', () => {
  const LOT = 'lots:\n  L1:\n    variety: Gala\n    picked: 2026-09-04\n    bins: 50\n';
  const toldOf = (text: string) => problemsOf(textOf(text)).filter(({ code }) => code === 'yaml-syntax');
  const fixesOf = (text: string) => toldOf(text).flatMap(({ fixes = [] }) => fixes);

  it('of a line joined with the one below is told with both, and has no fix', () => {
    const joined = `${LOT}    block: Long Meadow received: 50\n`;
    expect(toldOf(joined)).toHaveLength(1);
    expect(toldOf(joined)[0]?.message).toMatch(/two.*in quotes. Where `received` is a key, begin a new line/);
    expect(fixesOf(joined)).toEqual([]);
    // Nothing else can be meant by it.
    expect(fixesOf(`${LOT}    block: Long Meadow: north\n`)).toHaveLength(1);
  });

  it('of a brace that would take keys of the lot into its maturity test has no fix', () => {
    const open = `lots:
  L1: { variety: Gala, picked: 2026-09-04, maturity: { starch: 5.1,
        block: north, bins: 50,
        firmness: 74 N }
`;
    expect(toldOf(open).map(({ message }) => message)).toEqual([
      expect.stringMatching(/not closed.*has no key `block`/),
    ]);
    expect(fixesOf(open)).toEqual([]);
  });

  it('of words that begin as a key does is a comment, not a value that cannot be', () => {
    const [told] = toldOf(`${LOT}    received when the cooler was checked\n`);
    expect(told?.message).toMatch(/If it is a comment/);
  });

  it.each(['    received 7,5 t\n', '    picked 2027-03\n', '    maturity: { starch 2,5, firmness: 7,5 N\n'])(
    'of a number or a day that has no one meaning is left to the planner: %s',
    (line) => {
      expect(fixesOf(LOT + line)).toEqual([]);
    },
  );

  it('leaves all that is told of the entries beside it', () => {
    const others =
      '  L2: { variety: Gala, bins: 0.5 }\n  L3: { variety: Gala, picked: 2027-03, bins: 7,5 }\n';
    const ofOthers = (text: string) =>
      problemsOf(textOf(text)).filter(({ at }) => at.start >= textOf(text).indexOf('  L2:'));
    const whole = ofOthers(LOT + others).map(({ message }) => message);
    expect(whole.length).toBeGreaterThan(2);
    for (const [written, typed] of [
      ['bins: 50', 'bins:50'],
      ['bins: 50', 'bins 50'],
      ['picked:', '- picked:'],
      ['Gala\n', '"Gala\n'],
      ['bins: 50', 'bins:\u00a050'],
    ] as const) {
      const told = ofOthers(LOT.replace(written, () => typed) + others).map(({ message }) => message);
      expect(told).toEqual(expect.arrayContaining(whole));
    }
  });
});
