import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { applyEdits, plainText, removeKey, renameEntry, setValue } from '../../src/plan/edits';
import type { Entry, Plan, PlanText } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { sampleFiles } from '../samples/sample';

const BLOCK = `# the plan
lotwright: 1
fills:
  # first fill
  F1: # kept long
    room: R1 # north
    # regime of last year
    regime: own
    lots: { L1: 3 }   # from Long Meadow

  F2: { room: R2, regime: own, lots: { L2: 4 } } # short
  F3: {}
  F4:
  F5:
    room: R3
    open:  # not yet
`;

function edited(
  text: string,
  edit: (plan: Plan, file: PlanText, entry: (id: string) => Entry['places']) => ReturnType<typeof setValue>,
) {
  const plan = readPlan([{ path: 'a', text }]);
  const file = plan.files.get('a');
  if (!file) throw new Error('no file');
  const entry = (id: string) => {
    const fill = plan.fills.get(id);
    if (!fill) throw new Error(`no fill ${id}`);
    return fill.places;
  };
  return applyEdits(text, edit(plan, file, entry));
}

/** The lines that differ, old against new, where only lines were added, removed or changed at one place. */
function changes(before: string, after: string) {
  const [old, now] = [before.split('\n'), after.split('\n')];
  let start = 0;
  while (start < old.length && old[start] === now[start]) start++;
  let end = 0;
  while (end < old.length - start && end < now.length - start && old.at(-1 - end) === now.at(-1 - end)) end++;
  return { old: old.slice(start, old.length - end), now: now.slice(start, now.length - end) };
}

describe('setting a value', () => {
  const cases: [
    what: string,
    id: string,
    path: [string, ...string[]],
    value: string,
    old: string[],
    now: string[],
  ][] = [
    ['replaces it', 'F1', ['room'], 'R9', ['    room: R1 # north'], ['    room: R9 # north']],
    ['adds a key below the last', 'F1', ['open'], '2027-W09', [], ['    open: 2027-W09']],
    [
      'adds a key within braces',
      'F2',
      ['open'],
      '2027-W09',
      ['  F2: { room: R2, regime: own, lots: { L2: 4 } } # short'],
      ['  F2: { room: R2, regime: own, lots: { L2: 4 }, open: 2027-W09 } # short'],
    ],
    [
      'goes into a map',
      'F1',
      ['lots', 'L7'],
      '12',
      ['    lots: { L1: 3 }   # from Long Meadow'],
      ['    lots: { L1: 3, L7: 12 }   # from Long Meadow'],
    ],
    ['fills empty braces', 'F3', ['room'], 'R1', ['  F3: {}'], ['  F3: { room: R1 }']],
    ['fills an empty entry', 'F4', ['room'], 'R1', [], ['    room: R1']],
    [
      'writes behind a bare colon',
      'F5',
      ['open'],
      '2027-W09',
      ['    open:  # not yet'],
      ['    open: 2027-W09  # not yet'],
    ],
    ['adds the maps above it', 'F4', ['lots', 'L1'], '3', [], ['    lots: { L1: 3 }']],
  ];

  it.each(cases)('%s (%s)', (_, id, path, value, old, now) => {
    for (const end of ['\n', '\r\n']) {
      const text = BLOCK.replaceAll('\n', end);
      const after = edited(text, (_plan, file, entry) => setValue(file, entry(id), path, value));
      expect(changes(BLOCK, after.replaceAll(end, '\n'))).toEqual({ old, now });
      if (end === '\r\n') expect(after.replaceAll('\r\n', '')).not.toContain('\n');
    }
  });

  it('at the end of a file without a last line end', () => {
    const text = 'fills:\n  F1:\n    room: R1';
    const after = edited(text, (_plan, file, entry) => setValue(file, entry('F1'), ['open'], '2027-W09'));
    expect(after).toBe('fills:\n  F1:\n    room: R1\n    open: 2027-W09');
  });
});

describe('removing a key', () => {
  const cases: [what: string, id: string, key: string, old: string[], now: string[]][] = [
    ['takes its line with the comment on it', 'F1', 'room', ['    room: R1 # north'], []],
    ['leaves the comment above', 'F1', 'regime', ['    regime: own'], []],
    [
      'within braces takes its comma',
      'F2',
      'room',
      ['  F2: { room: R2, regime: own, lots: { L2: 4 } } # short'],
      ['  F2: { regime: own, lots: { L2: 4 } } # short'],
    ],
    [
      'last in braces takes the comma before',
      'F2',
      'lots',
      ['  F2: { room: R2, regime: own, lots: { L2: 4 } } # short'],
      ['  F2: { room: R2, regime: own } # short'],
    ],
    ['that is not there does nothing', 'F1', 'open', [], []],
  ];

  it.each(cases)('%s', (_, id, key, old, now) => {
    const after = edited(BLOCK, (_plan, file, entry) => removeKey(file, entry(id), key));
    expect(changes(BLOCK, after)).toEqual({ old, now });
  });
});

describe('renaming an entry', () => {
  it('changes its definition and every place that names it, and nothing else', () => {
    const files = sampleFiles('first-season');
    const plan = readPlan(files);
    const [id] = plan.rooms.keys();
    for (const [section, old, newId] of [
      ['rooms', id ?? '', 'North 1'],
      ['lots', [...plan.lots.keys()][0] ?? '', 'L_a'],
      ['varieties', 'Gala', 'Royal Gala'],
      ['bins', [...plan.binTypes.keys()][0] ?? '', 'null'],
    ] as const) {
      const edits = renameEntry(plan, section, old, newId) ?? [];
      expect(edits.length).toBeGreaterThan(1);
      const renamed = readPlan(
        files.map((file) => ({
          ...file,
          text: applyEdits(
            file.text,
            edits.filter(({ at }) => at.file === file.path),
          ),
        })),
      );
      expect(renamed.problems).toEqual([]);
      const named = (of: Plan, name: string) =>
        of.references.filter((ref) => ref.section === section && ref.id === name).length;
      expect([named(renamed, old), named(renamed, newId)]).toEqual([0, named(plan, old)]);
      expect(renamed.references.length).toBe(plan.references.length);
    }
  });

  it('to what is no identifier is refused', () => {
    const plan = readPlan([{ path: 'a', text: BLOCK }]);
    for (const newId of ['', '1', 'a:b', 'a#', '-x', 'ä'])
      expect(renameEntry(plan, 'fills', 'F1', newId)).toBeUndefined();
  });
});

describe('any edit of the sample season', () => {
  const files = sampleFiles('full-season');
  const plan = readPlan(files);
  const entries: Entry[] = [
    ...plan.fills.values(),
    ...plan.rooms.values(),
    ...plan.lots.values(),
    ...plan.demand.values(),
  ];
  const week = fc.integer({ min: 1, max: 52 }).map((number) => `2027-W${String(number).padStart(2, '0')}`);

  it('changes only the lines it must, and is read back as it was meant', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...entries),
        fc.constantFrom('open', 'ready', 'block', 'price'),
        week,
        fc.boolean(),
        fc.boolean(),
        (entry, key, value, removes, crlf) => {
          const path = entry.at.file;
          const shown = files.map((file) => ({
            ...file,
            text: crlf ? file.text.replaceAll('\n', '\r\n') : file.text,
          }));
          const before = readPlan(shown);
          const file = before.files.get(path);
          const there = [before.fills, before.rooms, before.lots, before.demand]
            .map((map) => map.get(entry.id))
            .find((found) => found?.at.file === path);
          if (!file || !there) throw new Error('the entry is not there');
          const edits = removes
            ? removeKey(file, there.places, key)
            : setValue(file, there.places, [key], value);
          const text = applyEdits(file.text, edits);
          const { old, now } = changes(file.text, text);
          expect(old.length).toBeLessThanOrEqual(2);
          expect(now.length).toBeLessThanOrEqual(2);
          const after = readPlan(shown.map((other) => (other.path === path ? { ...other, text } : other)));
          const again = [after.fills, after.rooms, after.lots, after.demand]
            .map((map) => map.get(entry.id))
            .find((found) => found?.at.file === path);
          const place = again?.places.entries?.get(key)?.span;
          expect(place && text.slice(place.start, place.end)).toBe(removes ? undefined : value);
          // All other keys stand as they stood.
          const others = (of: typeof there | undefined) =>
            [...(of?.places.entries?.keys() ?? [])].filter((name) => name !== key);
          expect(others(again)).toEqual(others(there));
          expect([...after.lots.keys()]).toEqual([...before.lots.keys()]);
        },
      ),
      { numRuns: 40 },
    );
  });
});

describe('a text as YAML', () => {
  it('is plain where it is read back the same, in brackets too, and else in quotes', () => {
    expect(['Gala', 'no 1', '2027-W09', 'a/b'].map(plainText)).toEqual(['Gala', 'no 1', '2027-W09', 'a/b']);
    expect(['true', '12', 'a: b', "it's: so", 'a, b', '', ' a', '#a', 'a\nb'].map(plainText)).toEqual([
      "'true'",
      "'12'",
      "'a: b'",
      "'it''s: so'",
      "'a, b'",
      "''",
      "' a'",
      "'#a'",
      '"a\\nb"',
    ]);
  });

  it('is read back as it was', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 20 }), (text) => {
        const read = readPlan([{ path: 'a', text: `season:\n  name: ${plainText(text)}\n` }]);
        expect(read.season?.name?.value ?? '').toBe(text);
      }),
      { numRuns: 300 },
    );
  });
});
