import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Plan } from '../../src/plan/model';
import { emptyPlanCache, readPlan } from '../../src/plan/read';
import { readingCodes } from '../../src/plan/reading-codes';
import { mutate, mutatedStretch, mutations, sampleTexts } from './mutated';

const known = new Set(readingCodes.map(({ code }) => code));

/** Reads one file, and holds what every reading must hold. */
function read(text: string): Plan {
  const plan = readPlan([{ path: 'a.lotplan.yaml', text }]);
  for (const { code, message, at, fixes = [], related = [] } of plan.problems) {
    expect(known.has(code), code).toBe(true);
    expect(message.length).toBeLessThan(600);
    const places = [
      at,
      ...related.map((place) => place.at),
      ...fixes.flatMap(({ edits }) => edits.map((edit) => edit.at)),
    ];
    for (const { file, start, end } of places) {
      expect(file).toBe('a.lotplan.yaml');
      expect(
        0 <= start && start <= end && end <= text.length,
        `${code} ${start}..${end} of ${text.length}`,
      ).toBe(true);
    }
  }
  expect(plan.problems.length).toBeLessThanOrEqual(202);
  return plan;
}

const codes = (text: string) => read(text).problems.map(({ code }) => code);
const ROOM = '{ inside: { length: 9 m, width: 8 m, height: 7 m }, bin-type: b }';

describe('any text is read', () => {
  it('empty, blank, comments only', () => {
    for (const text of ['', ' ', '\n', '\r\n\r\n', '# nothing yet\n', '\ufeff', '---\n', '---'])
      expect(codes(text).filter((code) => code !== 'language-version-missing')).toEqual([]);
  });

  it('cut off after every character', () => {
    const text = sampleTexts[0] ?? '';
    for (let end = 0; end < text.length; end += 13) read(text.slice(0, end));
  });

  it('with CRLF and a byte order mark, to the same plan at other places', () => {
    for (const text of sampleTexts) {
      const plain = read(text);
      const marked = read(`\ufeff${text.replaceAll('\n', '\r\n')}`);
      expect(marked.problems.map(({ code, message }) => [code, message])).toEqual(
        plain.problems.map(({ code, message }) => [code, message]),
      );
      expect([...marked.rooms.keys(), ...marked.lots.keys()]).toEqual([
        ...plain.rooms.keys(),
        ...plain.lots.keys(),
      ]);
      for (const lot of marked.lots.values())
        expect(marked.files.get('a.lotplan.yaml')?.text.slice(lot.at.start, lot.at.end)).toBe(lot.id);
    }
  });

  it('with lone carriage returns, told once, and read all the same', () => {
    const text = `lotwright: 1\rrooms:\r  R1: ${ROOM}\r`;
    const plan = read(text);
    expect(plan.problems.map(({ code }) => code)).toEqual(['line-ending']);
    expect([...plan.rooms.keys()]).toEqual(['R1']);
    expect(plan.files.get('a.lotplan.yaml')?.lineStarts.length).toBe(4);
  });

  it('indented with tabs, told once, and read all the same', () => {
    const plan = read(
      `lotwright: 1\nrooms:\n\tR1:\n\t\tinside: { length: 9 m, width: 8 m, height: 7 m }\n\t\tbin-type: b\n`,
    );
    expect(plan.problems.map(({ code }) => code)).toEqual(['tab-indent']);
    expect(plan.rooms.get('R1')?.binType?.value).toBe('b');
  });

  it('with a merge conflict: one finding, the first version read', () => {
    const plan = read(
      `lotwright: 1\nrooms:\n<<<<<<< ours\n  R1: ${ROOM}\n=======\n  R1: { bin-type: 7 }\n  R2: nonsense: more\n>>>>>>> theirs\n`,
    );
    expect(plan.problems.map(({ code }) => code)).toEqual(['merge-conflict']);
    expect([...plan.rooms.keys()]).toEqual(['R1']);
    expect(codes('a: 1\n<<<<<<< ours\nb: 1\n')[0]).toBe('merge-conflict');
  });

  it('with all the YAML that plans do without, each at its place', () => {
    const text = `%YAML 1.1\n---\nlotwright: 1\nrooms:\n  R1: &a ${ROOM}\n  R2: *a\n  R3: !!map ${ROOM}\n  R4:\n    <<: *a\n---\nlots:\n`;
    const found = read(text).problems.filter(({ code }) => code === 'yaml-feature-not-allowed');
    expect(found.map(({ at }) => text.slice(at.start, at.end))).toEqual([
      '%YAML 1.1',
      '&a',
      '*a',
      '!!map',
      '<<',
      '*a',
      '---',
    ]);
  });

  it('with bombs of aliases and brackets, quickly', () => {
    const levels = Array.from(
      { length: 30 },
      (_, level) => `  a${level + 1}: &a${level + 1} [*a${level}, *a${level}]`,
    );
    expect(codes(`rooms:\n  a0: &a0 [x]\n${levels.join('\n')}\n`)).toContain('yaml-feature-not-allowed');
    for (const text of [
      '['.repeat(100_000),
      '{a: '.repeat(50_000),
      '- '.repeat(50_000),
      `a:\n${' '.repeat(9)}${'? '.repeat(5000)}`,
    ])
      expect(codes(text)).toContain('yaml-syntax');
    const steps = Array.from({ length: 900 }, (_, level) => `${' '.repeat(level)}a:\n`);
    expect(codes(steps.join(''))).toContain('yaml-syntax');
  });

  it('without taking more than its length in time: long lines, long maps, many comments', () => {
    const many = (count: number, text: (index: number) => string) =>
      Array.from({ length: count }, (_, index) => text(index)).join('');
    const texts = [
      `rooms:\n  R1: [&a ${'1, '.repeat(150_000)}]\n`,
      `rooms:\n  R1:\n${many(50_000, (index) => `    k${index}: 1\n`)}`,
      `rooms:\n  R1:\n${many(50_000, (index) => `    k${index}:\n`)}`,
      `fills:\n  F1:\n    lots:\n${many(50_000, (index) => `      L${index}: x\n`)}`,
      `fills:\n  F1: { lots: { ${many(60_000, (index) => `L${index}: 1, `)} } }\n`,
      `rooms:\n  R1:\n${'    # lotwright: allow a -- b\n    x: 1\n'.repeat(20_000)}`,
      `rooms:\n${'  R1: {}\n'.repeat(60_000)}`,
      'a\n'.repeat(60_000),
      '\t'.repeat(500_000),
      ' '.repeat(1_000_000),
    ];
    for (const text of texts) read(text);
  });

  it('not where it is too large, binary or in another encoding', () => {
    expect(codes('a'.repeat(50 * 1024 * 1024))).toEqual(['file-too-large']);
    expect(codes('\n'.repeat(200_000))).toEqual(['file-too-large']);
    expect(codes('\u0000\u0001'.repeat(100))).toEqual(['not-text']);
    expect(codes([...'rooms:\n  R1:\n    stack: 9\n'].map((letter) => `${letter}\u0000`).join(''))).toEqual([
      'not-text',
    ]);
    expect(codes('rooms:\n  R1:\u0007 x\n')).toContain('yaml-syntax');
  });

  it('a broken entry costs none of the others', () => {
    const others = Array.from({ length: 9 }, (_, index) => `  R${index}: ${ROOM}\n`);
    for (const broken of [
      '  X: "unclosed\n',
      '  X: { a: [1\n',
      '  X\n',
      '  X: |\n   a\n',
      '  X: note: late: second\n',
      '  X: @x\n',
      "  X: '\n",
    ]) {
      const text = `lotwright: 1\nrooms:\n${others.slice(0, 5).join('')}${broken}${others.slice(5).join('')}`;
      const { rooms } = read(text);
      for (let index = 0; index < 9; index++)
        expect(rooms.get(`R${index}`)?.binType?.value, broken).toBe('b');
    }
  });

  it('written with braces throughout, or as JSON', () => {
    const flow = `{ lotwright: 1, rooms: { R1: ${ROOM} } }`;
    const json = `{\n "lotwright": 1,\n "rooms": {"R1": {"inside": {"length": "9 m","width": "8 m","height": "7 m"}, "bin-type": "b"}}\n}`;
    for (const text of [
      flow,
      json,
      `lotwright: 1\nrooms: { R1: ${ROOM} }\n`,
      `"lotwright": 1\n"rooms":\n  "R1": ${ROOM}\n`,
    ]) {
      const plan = read(text);
      expect(plan.problems, text).toEqual([]);
      expect(plan.rooms.get('R1')?.length?.value).toBe(9);
    }
  });

  it('with thousands of problems, of which two hundred are shown', () => {
    const text = `rooms:\n${Array.from({ length: 1000 }, (_, index) => `  R${index}: { bin-type: 1 }\n`).join('')}`;
    const problems = read(text).problems.filter(({ code }) => code !== 'language-version-missing');
    expect(problems).toHaveLength(201);
    expect(problems.at(-1)?.code).toBe('too-many-problems');
    expect(problems.at(-1)?.message).toMatch(/^1800 more/);
  });

  it('echoes no long text', () => {
    const long = 'x'.repeat(5000);
    for (const text of [
      `${long}: 1\n`,
      `rooms:\n  ${long}:\n    bin-type: 3\n`,
      `rooms:\n  R1:\n    stack: ${long}\n    ${long}: 1\n`,
    ])
      for (const { message, about } of read(text).problems) {
        expect(message).not.toContain('x'.repeat(81));
        expect((about ?? '').length).toBeLessThanOrEqual(160);
      }
  });

  it('mutated in any way', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          mutatedStretch,
          fc
            .tuple(fc.constantFrom(...sampleTexts), mutations)
            .map(([text, steps]) => steps.reduce(mutate, text)),
        ),
        (text) => {
          read(text);
        },
      ),
      { numRuns: 400 },
    );
  });

  it('arbitrary', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (text) => {
        read(text);
      }),
      { numRuns: 500 },
    );
  });
});

describe('reading with a cache', () => {
  it('gives what reading afresh gives, whatever is edited', () => {
    fc.assert(
      fc.property(fc.array(fc.tuple(fc.nat(), mutations), { maxLength: 8 }), (edits) => {
        const files = ['a', 'b/c', 'd'].map((name, index) => ({
          path: `${name}.lotplan.yaml`,
          text: sampleTexts[index] ?? '',
        }));
        const cache = emptyPlanCache();
        readPlan(files, cache);
        for (const [which, steps] of edits) {
          const file = files[which % files.length];
          if (file) file.text = steps.reduce(mutate, file.text);
          expect(readPlan(files, cache)).toEqual(readPlan(files));
        }
      }),
      { numRuns: 25 },
    );
  });

  it('keeps no more than the last reading used', () => {
    const cache = emptyPlanCache();
    for (let edit = 0; edit < 50; edit++)
      readPlan(
        [{ path: 'a.lotplan.yaml', text: `rooms:\n  R1: { stack: ${edit} }\n  R2: { stack: 1 }\n` }],
        cache,
      );
    expect(cache.files.size).toBe(1);
    expect(cache.files.get('a.lotplan.yaml')?.chunks.length).toBe(3);
    readPlan([], cache);
    expect(cache.files.size).toBe(0);
  });

  it('takes entries from the last reading that have not moved', () => {
    const cache = emptyPlanCache();
    const text = `lotwright: 1\nrooms:\n  R1: ${ROOM}\n  R2: ${ROOM}\n`;
    const before = readPlan([{ path: 'a', text }], cache);
    const after = readPlan([{ path: 'a', text: text.replace('R2', 'R9') }], cache);
    expect(after.rooms.get('R1')).toBe(before.rooms.get('R1'));
    expect([...after.rooms.keys()]).toEqual(['R1', 'R9']);
  });

  it('moves entries below a change with their places, CRLF or not', () => {
    for (const end of ['\n', '\r\n']) {
      const cache = emptyPlanCache();
      const text = ['lotwright: 1', 'rooms:', ...[1, 2, 3, 4, 5].map((id) => `  R${id}: ${ROOM}`), ''].join(
        end,
      );
      const before = readPlan([{ path: 'a', text }], cache);
      const typed = text.replace('  R3:', `  # a line more${end}  R3:`);
      const after = readPlan([{ path: 'a', text: typed }], cache);
      expect(after.rooms.get('R4')).toBe(before.rooms.get('R4'));
      expect(after).toEqual(readPlan([{ path: 'a', text: typed }]));
    }
  });
});

describe('the order of files', () => {
  it('does not matter', () => {
    const files = sampleTexts.slice(0, 6).map((text, index) => ({ path: `${index}.lotplan.yaml`, text }));
    const plan = readPlan(files);
    fc.assert(
      fc.property(fc.shuffledSubarray(files, { minLength: files.length }), (shuffled) => {
        const other = readPlan(shuffled);
        expect(other).toEqual(plan);
        expect([...other.rooms.keys()]).toEqual([...plan.rooms.keys()]);
      }),
      { numRuns: 5 },
    );
  });
});
