import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../src/plan/edits';
import type { Plan } from '../../src/plan/model';
import { emptyPlanCache, readPlan } from '../../src/plan/read';

const [BUILDINGS = '', HARVEST = ''] = ['orrowby', 'fruit'].map((name) =>
  readFileSync(`sample-plans/first-season/${name}.lotplan.yaml`, 'utf8'),
);
/** The first season in one file. */
const SEASON = BUILDINGS + HARVEST.replace('lotwright: 1\n', '');

const readText = (text: string) => readPlan([{ path: 'p', text }]);
const indentOf = (line: string) => line.length - line.trimStart().length;

/** The season with the first line that begins so, from its first letter, moved to a column, and all below it if asked. */
function moved(begins: string, column: number, withAll: boolean) {
  const lines = SEASON.split('\n');
  const line = lines.findIndex((one) => one.trimStart().startsWith(begins));
  const own = indentOf(lines[line] ?? '');
  const next = lines.findIndex((one, at) => at > line && one.trim() !== '' && indentOf(one) <= own);
  const last = withAll ? (next < 0 ? lines.length : next) : line + 1;
  const text = lines
    .map((one, at) => {
      const isMoved = at >= line && at < last && one.trim() !== '';
      return isMoved ? ' '.repeat(indentOf(one) + column - own) + one.trimStart() : one;
    })
    .join('\n');
  return { text, line };
}

/** A plan's entries with their keys, wherever they are written. */
function saidBy({ rooms, lots, fills, demand, packing, season, scrubbers }: Plan): string {
  const isPlace = (value: unknown) => typeof value === 'object' && value !== null && 'file' in value;
  return JSON.stringify([rooms, lots, fills, demand, packing, season, scrubbers], (_, value: unknown) =>
    isPlace(value) ? undefined : value instanceof Map ? [...value] : value,
  );
}

function plain(plan: Plan): string {
  return JSON.stringify(plan, (_, value: unknown) => (value instanceof Map ? [...value] : value));
}

const ALONE = false;
const WITH_ALL = true;

describe('what stands too deep is told once, at its line, and its fix brings the plan back', () => {
  it.each([
    [
      'the season a space too deep',
      'season:',
      1,
      ALONE,
      /`season` is a section, and stands 1 space too deep/,
    ],
    ['the season pasted a step deeper', 'season:', 2, WITH_ALL, /`season` is a section/],
    ['the rooms a space too deep', 'rooms:', 1, ALONE, /must begin at the line's beginning/],
    ['the rooms as deep as what is below', 'rooms:', 2, ALONE, /stands 2 spaces too deep/],
    ['the rooms as deep as the keys of a bin', 'rooms:', 4, ALONE, /stands 4 spaces too deep/],
    ['the rooms pasted a space deeper', 'rooms:', 1, WITH_ALL, /`rooms` is a section/],
    ['the rooms pasted a step deeper', 'rooms:', 2, WITH_ALL, /`rooms` is a section/],
    ['the plant as deep as the rooms', 'plant:', 2, ALONE, /`plant` is a section/],
    ['the plant pasted a step deeper', 'plant:', 2, WITH_ALL, /`plant` is a section/],
    ['the demand as deep as what the plant has', 'demand:', 2, ALONE, /`demand` is a section/],
    ['the packing line a space too deep', 'packing:', 1, ALONE, /`packing` is a section/],
    ['the packing line as deep as its keys', 'packing:', 2, ALONE, /`packing` is a section/],
    ['the packing line pasted a step deeper', 'packing:', 2, WITH_ALL, /`packing` is a section/],
    ['the lots as deep as the regimes', 'lots:', 2, ALONE, /`lots` is a section/],
    ['the fills as deep as the lots', 'fills:', 2, ALONE, /`fills` is a section/],
    ['the fills pasted a step deeper', 'fills:', 2, WITH_ALL, /`fills` is a section/],
    ['the first room a space too deep', 'R1:', 3, ALONE, /indented by 3 spaces, those beside it by 2\./],
    ['the first room as deep as its keys', 'R1:', 4, ALONE, /indented by 4 spaces, those beside it by 2\./],
    [
      'the first room pasted a step deeper',
      'R1:',
      4,
      WITH_ALL,
      /indented by 4 spaces, those beside it by 2\./,
    ],
    ['the first lot a step too deep', 'G1:', 4, ALONE, /indented by 4 spaces, those beside it by 2\./],
    ['the scrubbers as deep as the first one', 'scrubbers:', 4, ALONE, /those beside it by 2\./],
    [
      "a fill's first key a space too deep",
      'room: R2',
      5,
      ALONE,
      /indented by 5 spaces, those beside it by 4\./,
    ],
    [
      "a fill's first key a step too deep",
      'room: R2',
      6,
      ALONE,
      /indented by 6 spaces, those beside it by 4\./,
    ],
    ["the season's first key a step too deep", 'name: Orrowby', 4, ALONE, /those beside it by 2\./],
  ])('%s', (_what, begins, column, withAll, says) => {
    const { text, line } = moved(begins, column, withAll);
    const plan = readText(text);
    const told = plan.problems.map(({ at, message, fixes }) => ({
      line: text.slice(0, at.start).split('\n').length - 1,
      message,
      mended: fixes?.map(({ edits }) => applyEdits(text, edits)),
    }));
    expect(told).toEqual([{ line, message: expect.stringMatching(says), mended: [SEASON] }]);
    expect(saidBy(plan)).toBe(saidBy(readText(SEASON)));
  });

  it.each(['R2-gala:', 'R3-golden:', 'gala-own:', 'braeburn-own:', 'R3:'])(
    'an entry that stands as deep as the keys of the one above: %s',
    (name) => {
      const { text, line } = moved(name, 4, ALONE);
      const plan = readText(text);
      expect(plan.problems).toHaveLength(1);
      const [problem] = plan.problems;
      expect(problem?.message).toMatch(/This line is indented by 4 spaces, those beside it by 2/);
      expect(text.slice(0, problem?.at.start).split('\n')).toHaveLength(line + 1);
      expect(saidBy(plan)).toEqual(saidBy(readText(SEASON)));
      expect(applyEdits(text, problem?.fixes?.[0]?.edits ?? [])).toEqual(SEASON);
    },
  );

  it('but not a key that is only misspelt, or just typed', () => {
    const typed = SEASON.replace('    sealed: 2026-09-18', '    seald:\n    sealed: 2026-09-18');
    expect(readText(typed).fills.get('R2-gala')?.sealed).toBeDefined();
    expect(readText(typed).fills.size).toBe(readText(SEASON).fills.size);
    const twice = SEASON.replace('    sealed: 2026-09-18', '    sealed:\n    lots: { G4: 78 }');
    expect(readText(twice).fills.size).toBe(readText(SEASON).fills.size);
  });

  it('also with CRLF', () => {
    for (const [begins, column] of [
      ['rooms:', 2],
      ['room: R2', 6],
    ] as const) {
      const text = moved(begins, column, ALONE).text.replaceAll('\n', '\r\n');
      const { problems } = readText(text);
      expect(problems.map(({ fixes }) => applyEdits(text, fixes?.[0]?.edits ?? []))).toEqual([
        SEASON.replaceAll('\n', '\r\n'),
      ]);
    }
  });

  it('a heading just typed where the editor put the cursor, with nothing below it yet', () => {
    const text = 'lotwright: 1\nlots:\n  L1: { variety: Gala, picked: 2026-09-03, bins: 4 }\n  fills:\n';
    const { problems, lots } = readText(text);
    expect(problems.map(({ about }) => about)).toContain('section-depth/fills');
    expect([...lots.keys()]).toEqual(['L1']);
  });

  it('and no fix is offered where what is below stands at no depth that tells which is meant', () => {
    const text = 'lotwright: 1\nbins:\n  b: {}\n rooms:\n     R1: {}\n';
    const [first] = readText(text).problems.filter(({ code }) => code === 'yaml-syntax');
    expect(first?.message).toMatch(/`rooms` is a section/);
    expect(first?.fixes).toEqual([]);
  });

  it('and read after edits as afresh', () => {
    const cache = emptyPlanCache();
    const whole = plain(readText(SEASON));
    for (const [begins, column, withAll] of [
      ['fills:', 2, ALONE],
      ['R1:', 3, ALONE],
      ['G1:', 4, ALONE],
      ['packing:', 2, WITH_ALL],
      ['room: R2', 6, ALONE],
    ] as const) {
      const { text } = moved(begins, column, withAll);
      expect(plain(readPlan([{ path: 'p', text }], cache))).toBe(plain(readText(text)));
      expect(plain(readPlan([{ path: 'p', text: SEASON }], cache))).toBe(whole);
    }
  });

  it('and so is a heading that is typed amid entries', () => {
    const cache = emptyPlanCache();
    readPlan([{ path: 'p', text: SEASON }], cache);
    for (const typed of ['  fills:\n', '    fills:\n', '  bins:\n', ' demand:\n', '  samples:\n    S: {}\n'])
      for (const before of ['  G3: ', '  R3-golden:', '    first-bin: 2026-09-16']) {
        const text = SEASON.replace(before, typed + before);
        expect(plain(readPlan([{ path: 'p', text }], cache))).toBe(plain(readText(text)));
        readPlan([{ path: 'p', text: SEASON }], cache);
      }
  });
});

describe('what only has the name of a section stays what it is', () => {
  const LOT = 'variety: Gala, picked: 2026-09-03, bins: 4';
  it.each([
    [
      'a lot',
      `lots:\n  L1: { ${LOT} }\n  samples:\n    variety: Gala\n    picked: 2026-09-03\n    bins: 4\n`,
    ],
    ['a lot in braces below its name', `lots:\n  samples:\n    { ${LOT} }\n  L1: { ${LOT} }\n`],
    ["a fill's lots", 'fills:\n  F1:\n    lots:\n      L1: 4\n    room: R1\n'],
    ['what a scenario changes', 'scenarios:\n  s:\n    change:\n      rooms:\n        R1: { places: 4 }\n'],
    ["a regime's varieties", 'regimes:\n  r:\n    varieties:\n      - Gala\n'],
  ])('%s', (_what, text) => {
    const { problems } = readText(`lotwright: 1\n${text}`);
    expect(problems.filter(({ code }) => code === 'yaml-syntax')).toEqual([]);
  });

  it('a key of a lot that is being typed', () => {
    const { problems, lots } = readText(
      `lotwright: 1\nlots:\n  L1:\n    variety: Gala\n    bins:\n  L2: { ${LOT} }\n`,
    );
    expect(problems.filter(({ code }) => code === 'yaml-syntax')).toEqual([]);
    expect([...lots.keys()]).toEqual(['L1', 'L2']);
  });
});
