import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { comparePlans } from '../../src/compare/compare';
import { readPlan } from '../../src/plan/read';
import { compareMarkdown } from '../../src/report/compare-markdown';
import { compareText } from '../../src/report/compare-text';
import { type SampleFile, sampleFiles } from '../samples/sample';

const OPTIONS = { seed: 1, courses: true } as const;
const UNITS = { system: 'metric', currency: 'EUR' } as const;

function compared(before: readonly SampleFile[], after: readonly SampleFile[]) {
  const [old, now] = [readPlan(before), readPlan(after)];
  const { comparison } = comparePlans(old, now, OPTIONS);
  const plans = { old: { name: 'a', plan: old }, now: { name: 'b', plan: now } };
  const markdown = compareMarkdown(comparison, plans, {
    units: UNITS,
    linkBase: '',
    marker: '',
    most: 60_000,
  });
  return { comparison, markdown, text: compareText(comparison, plans, UNITS) };
}

function saysNothing(before: readonly SampleFile[], after: readonly SampleFile[]): void {
  const { comparison, markdown } = compared(before, after);
  expect(comparison.changes).toEqual([]);
  expect(comparison.edits).toEqual([]);
  expect(comparison.consequences).toEqual([]);
  expect(comparison.heldBack).toEqual([]);
  expect(comparison.totals).toBeUndefined();
  expect(markdown).toBe('');
}

/** The entries of the sections that stand at the top of a file, each with the lines above its first. */
function sectionsOf(text: string): { readonly head: string; readonly sections: readonly string[] } {
  const parts = text.split(/^(?=[a-z]+:\s*$)/m);
  return { head: parts[0] ?? '', sections: parts.slice(1) };
}

/** A section's entries: each from its key to the next one. */
function entriesOf(section: string): { readonly head: string; readonly entries: readonly string[] } {
  const parts = section.replace(/\n*$/, '\n').split(/^(?= {2}[A-Za-z][\w -]*:)/m);
  return { head: parts[0] ?? '', entries: parts.slice(1) };
}

/** Sections whose entries may stand in any order. */
const MAPS = /^(rooms|lots|fills|demand|regimes|varieties|bins):/;

function shuffled<T>(list: readonly T[], keys: readonly number[]): T[] {
  return list
    .map((item, index) => ({ item, key: keys[index % Math.max(1, keys.length)] ?? 0, index }))
    .sort((a, b) => a.key - b.key || b.index - a.index)
    .map(({ item }) => item);
}

function reordered({ path, text }: SampleFile, keys: readonly number[]): SampleFile {
  const { head, sections } = sectionsOf(text);
  const inner = sections.map((section) => {
    if (!MAPS.test(section)) return section;
    const { head: key, entries } = entriesOf(section);
    return key + shuffled(entries, keys).join('');
  });
  return { path, text: head + shuffled(inner, keys).join('') };
}

const samples = ['first-season', 'us-units', 'with-mistakes', 'full-season'] as const;

describe('a plan compared with itself says nothing', () => {
  test.each(samples)('%s', (name) => {
    const files = sampleFiles(name);
    saysNothing(files, files);
    expect(compared(files, files).text).toBe('Nothing has changed from a to b.');
  });
});

const plain = samples.filter((name) => name !== 'with-mistakes');

describe('what is written otherwise is no change', () => {
  test('the orders that are tried are other orders of the same lines', () => {
    for (const file of sampleFiles('first-season')) {
      const after = reordered(file, [3, 1, 2]);
      expect(after.text).not.toBe(file.text);
      const lines = (text: string) =>
        text
          .split('\n')
          .filter((line) => line.trim() !== '')
          .sort();
      expect(lines(after.text)).toEqual(lines(file.text));
    }
  });

  test.each(plain)('sections and entries of %s in any order, in files of any name', (name) => {
    const files = sampleFiles(name);
    const keys = fc.array(fc.nat(1000), { minLength: 1, maxLength: 30 });
    fc.assert(
      fc.property(keys, fc.stringMatching(/^[a-z]{1,8}$/), (order, folder) => {
        const moved = files.map((file) => reordered(file, order));
        saysNothing(
          files,
          moved.map(({ path, text }) => ({ path: `${folder}/${path}`, text })),
        );
      }),
      { numRuns: name === 'full-season' ? 3 : 25 },
    );
  });

  test.each(plain)('all of %s in one file, and every section in a file of its own', (name) => {
    const files = sampleFiles(name);
    const sections = files.flatMap(({ text }) => sectionsOf(text).sections);
    const apart = sections.map((section, index) => ({
      path: `${index}.lotplan.yaml`,
      text: `lotwright: 1\n\n${section}`,
    }));
    saysNothing(files, apart);
  });

  test('comments, blank lines and spaces', () => {
    const files = sampleFiles('first-season');
    const noise = fc.array(fc.tuple(fc.nat(200), fc.constantFrom('\n', '# a word\n', '  # another\n')), {
      maxLength: 12,
    });
    fc.assert(
      fc.property(noise, (list) => {
        const after = files.map(({ path, text }) => {
          const lines = text.split('\n');
          for (const [line, what] of list) {
            const at = line % lines.length;
            // Not within an entry in braces, nor where a comment would be one that allows something.
            if (/^ {0,2}[\w#-]/.test(lines[at] ?? '')) lines[at] = what + lines[at];
          }
          return { path, text: lines.join('\n') };
        });
        saysNothing(files, after);
      }),
      { numRuns: 30 },
    );
  });

  test('other units for the same quantity', () => {
    const files = sampleFiles('first-season');
    const inches = (metres: string) => `${(Number(metres) / 0.0254).toPrecision(15)} in`;
    const after = files.map(({ path, text }) => ({
      path,
      text: text
        .replaceAll(
          /(length|width|height): (\d+(?:\.\d+)?) m\b/g,
          (_, key, metres) => `${key}: ${inches(metres)}`,
        )
        .replaceAll(/(\d+(?:\.\d+)?) kW\b/g, (_, kilowatts) => `${Number(kilowatts) * 1000} W`)
        .replaceAll(/(\d+) min\b/g, (_, minutes) => `${Number(minutes) * 60} s`)
        .replaceAll(/storage-life: 10 weeks/g, 'storage-life: 70 days'),
    }));
    expect(after).not.toEqual(files);
    saysNothing(files, after);
  });

  test('a demand by week that wants the same', () => {
    const files = sampleFiles('first-season');
    const after = files.map(({ path, text }) => ({
      path,
      text: text.replace(
        'weeks: 2027-W08..2027-W14\n    cartons: 390\n',
        'weeks: 2027-W07..2027-W14\n    cartons: 390\n    by-week: { 2027-W07: 0, 2027-W09: 390 }\n',
      ),
    }));
    expect(after).not.toEqual(files);
    saysNothing(files, after);
  });
});

describe('things with other names are renamed, not changed', () => {
  const files = sampleFiles('first-season');
  const renamed = (from: RegExp, to: string) =>
    files.map(({ path, text }) => ({ path, text: text.replaceAll(from, to) }));

  test.each([
    ['a lot and where it is placed', /\bG4\b/g, 'G-four', 'lots'],
    ['a room and what is in it', /\bR2\b(?!-)/g, 'R-two', 'rooms'],
    ['a fill', /R2-gala/g, 'R2-late-gala', 'fills'],
    ['a regime', /gala-own/g, 'gala-house', 'regimes'],
    ['a scrubber and its rooms', /\bS1\b/g, 'scrubber-one', 'scrubbers'],
    ['a nitrogen source', /\bN1\b/g, 'generator', 'nitrogen'],
    ['a refrigeration group', /engine-room/g, 'cellar', 'refrigeration'],
    ['a bin type', /plastic-1200/g, 'crate', 'bins'],
    ['a demand', /braeburn-spring/g, 'braeburn-lent', 'demand'],
  ])('%s', (_, from, to, kind) => {
    const after = renamed(from, to);
    saysNothing(files, after);
    const { comparison, text } = compared(files, after);
    expect(comparison.renames).toHaveLength(1);
    expect(comparison.renames[0]).toMatchObject({ kind, after: to });
    expect(text).toContain(`to ${to}`);
  });

  test('several at once, of which one names the other', () => {
    const after = renamed(/\b(G4|R2-gala|R2)\b/g, 'new-$1');
    saysNothing(files, after);
    expect(compared(files, after).comparison.renames).toHaveLength(3);
  });

  test.each([
    ['scrubbers', /\bS1\b/g, 'S-west', 'removal: 18 kg/day', 'removal: 15 kg/day', 'removal'],
    ['nitrogen', /\bN1\b/g, 'membrane', 'flow: 60 m3/h', 'flow: 55 m3/h', 'flows'],
    ['refrigeration', /\bengine-room\b/g, 'plant-1', 'capacity: 36 kW', 'capacity: 34 kW', 'capacity'],
    ['rooms', /\bR2\b/g, 'West-2', 'lost-places: 4', 'lost-places: 6', 'lost-places'],
    ['lots', /\bG4\b/g, 'G-four', 'field-temperature: 18', 'field-temperature: 17', 'field-temperature'],
  ] as const)(
    'and what was changed in it too is its change, both ways: %s',
    (kind, from, to, was, is, key) => {
      const after = renamed(from, to).map(({ path, text }) => ({ path, text: text.replace(was, is) }));
      for (const [one, other] of [
        [files, after],
        [after, files],
      ] as const) {
        const { comparison } = compared(one, other);
        expect(comparison.renames.map((rename) => rename.kind)).toContain(kind);
        expect(comparison.changes.map((change) => change.kind)).not.toContain('added');
        expect(comparison.changes.map((change) => change.kind)).not.toContain('removed');
        expect(comparison.changes).toHaveLength(1);
        expect(comparison.changes[0]?.key).toContain(key);
      }
    },
  );

  test('a room in the place of another is another room', () => {
    const text = (content: string) =>
      content
        .replace(/^ {2}R2:\n(?: {4}.*\n)+/m, '')
        .replace(
          /^rooms:\n/m,
          'rooms:\n  W9:\n    inside: { length: 20 m, width: 9 m, height: 7 m }\n    bin-type: plastic-1200\n    refrigeration: { capacity: 40 kW, group: engine-room }\n    ready: 2026-09-20\n',
        );
    const after = files.map(({ path, text: content }) => ({
      path,
      text: text(content).replace('room: R2', 'room: W9'),
    }));
    const { comparison } = compared(files, after);
    expect(comparison.renames).toEqual([]);
    expect(comparison.changes.map(({ kind }) => kind)).toEqual(
      expect.arrayContaining(['added', 'removed', 'fill-moved']),
    );
  });

  test('a rename beside a change leaves the change alone', () => {
    const after = renamed(/\bG4\b/g, 'G-four').map(({ path, text }) => ({
      path,
      text: text.replace('lost-places: 4', 'lost-places: 6'),
    }));
    const { comparison } = compared(files, after);
    expect(comparison.changes.map(({ kind, key }) => [kind, key])).toEqual([['key-changed', 'lost-places']]);
  });
});
