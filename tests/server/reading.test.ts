import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../src/plan/edits';
import { readPlan } from '../../src/plan/read';
import type { Span } from '../../src/plan/span';
import { fixAllEdits } from '../../src/server/services/fix-all';
import { foldingOf } from '../../src/server/services/folding';
import { hintsOf } from '../../src/server/services/hints';
import { lensesOf } from '../../src/server/services/lenses';
import { fileLinksOf, pageLinksOf } from '../../src/server/services/links';
import { paintedNamesOf } from '../../src/server/services/names-painted';
import { quantityHelpAt } from '../../src/server/services/quantity-help';
import { renameableAt, renamedAt } from '../../src/server/services/rename';
import { selectionAt } from '../../src/server/services/selection';
import { symbolsMatching } from '../../src/server/services/symbols';
import { caretIn, computed, samplePlan } from './plans';

const FRUIT = 'fruit.lotplan.yaml';
const files = samplePlan('first-season');
const { season } = computed(files);
const { plan } = season;
const textOf = ({ file, start, end }: Span) =>
  files.find(({ path }) => path === file)?.text.slice(start, end) ?? '';

describe('rename', () => {
  it('changes an entry wherever any file names it, and the plan still reads without a problem', () => {
    const edits = renamedAt(plan, caretIn(files, FRUIT, '    room: R‸2'), 'North 2');
    if ('refused' in edits) throw new Error(edits.refused);
    expect(new Set(edits.map(({ at }) => at.file))).toEqual(new Set(['orrowby.lotplan.yaml', FRUIT]));
    const renamed = readPlan(
      files.map(({ path, text }) => ({
        path,
        text: applyEdits(
          text,
          edits.filter(({ at }) => at.file === path),
        ),
      })),
    );
    expect(renamed.problems).toEqual([]);
    expect(renamed.rooms.has('R2')).toBe(false);
    expect(renamed.fills.get('R2-gala')?.room?.value).toBe('North 2');
  });

  it.each([
    [
      'a built-in variety',
      FRUIT,
      'B1: { variety: Brae‸burn',
      'Brae',
      /No file of the plan defines the variety Braeburn/,
    ],
    ['a name that is taken', FRUIT, '    room: R‸2', 'R3', /There is a room R3 already/],
    ['a name that is no identifier', FRUIT, '    room: R‸2', '2R', /a name starts with a letter/],
    ['a place without a name', FRUIT, '    temperature: 0.5 ‸°C', 'X', /no name of an entry/],
  ])('refuses %s and says why', (_, file, marked, newId, why) => {
    expect(renamedAt(plan, caretIn(files, file, marked), newId)).toEqual({
      refused: expect.stringMatching(why),
    });
  });

  it.each([
    ['where it is defined', FRUIT, '  R4-‸braeburn:'],
    ['in the records', 'records.lotplan.yaml', '  R4-‸braeburn:\n    first-bin'],
    ['in a sample', 'records.lotplan.yaml', 'T01-R4-braeburn: { lot: B1, fill: R4-b‸raeburn'],
  ])('reaches the records of a fill that is renamed %s', (_, file, marked) => {
    const march = samplePlan('in-march');
    const before = readPlan(march);
    const edits = renamedAt(before, caretIn(march, file, marked), 'North');
    if ('refused' in edits) throw new Error(edits.refused);
    const renamed = readPlan(
      march.map(({ path, text }) => ({
        path,
        text: applyEdits(
          text,
          edits.filter(({ at }) => at.file === path),
        ),
      })),
    );
    expect(renamed.problems).toEqual([]);
    expect(renamed.progress.get('North')?.sealed?.value).toBe(
      before.progress.get('R4-braeburn')?.sealed?.value,
    );
    const of = (plan: typeof before, id: string) =>
      [...plan.samples.values(), ...plan.packed.values()].filter(({ fill }) => fill?.value === id).length;
    expect(of(renamed, 'North')).toBe(of(before, 'R4-braeburn'));
    expect(of(renamed, 'North')).toBeGreaterThan(10);
    expect(of(renamed, 'R4-braeburn')).toBe(0);
  });

  it('is prepared with the name as it stands', () => {
    const answer = renameableAt(plan, caretIn(files, FRUIT, '    regime: gala-‸own'));
    expect(answer).toMatchObject({ placeholder: 'gala-own' });
  });
});

describe('folding', () => {
  it('folds sections, entries and the lines of a comment, and keeps closing brackets in sight', () => {
    const text = [
      '# one',
      '# two',
      'rooms:',
      '  R1: {',
      '    places: 5',
      '  }',
      '',
      '  # R2',
      '  R2:',
      '    places: 4',
    ];
    const file = readPlan([{ path: 'a', text: text.join('\n') }]).files.get('a');
    expect(file && foldingOf(file)).toEqual([
      { first: 0, last: 1, kind: 'comment' },
      { first: 2, last: 9, kind: 'entry' },
      { first: 3, last: 4, kind: 'entry' },
      { first: 8, last: 9, kind: 'entry' },
    ]);
  });

  it('never overlaps by halves in any file of the samples', () => {
    for (const file of readPlan(samplePlan('full-season')).files.values()) {
      const parts = foldingOf(file);
      expect(parts.length).toBeGreaterThan(0);
      for (const one of parts)
        for (const other of parts)
          if (one.first < other.first && other.first <= one.last)
            expect(other.last).toBeLessThanOrEqual(one.last);
    }
  });
});

describe('selection', () => {
  it('widens from the word to its key, entry, section and file', () => {
    const spans = selectionAt(plan, caretIn(files, FRUIT, 'G5: { variety: Gala, block: Stone ‸Acre'));
    const texts = spans.map(textOf);
    expect(texts.slice(0, 2)).toEqual(['Stone Acre', 'block: Stone Acre']);
    expect(texts.some((text) => text.startsWith('G5: {') && text.endsWith('}'))).toBe(true);
    expect(texts.at(-1)).toBe(files.find(({ path }) => path === FRUIT)?.text);
    for (let index = 1; index < spans.length; index++)
      expect(textOf(spans[index] as Span)).toContain(textOf(spans[index - 1] as Span));
  });
});

describe('symbols of the workspace', () => {
  it('finds entries by letters in order, best first', () => {
    const found = symbolsMatching(plan, 'r2');
    expect(found[0]).toMatchObject({ name: 'R2', kind: 'room' });
    expect(found.map(({ name }) => name)).toContain('R2-gala');
    expect(symbolsMatching(plan, 'no such entry')).toEqual([]);
  });
});

describe('figures above entries', () => {
  const lenses = lensesOf(season, FRUIT);
  const titleOf = (id: string) => lenses.find(({ at }) => textOf(at) === id);

  it('tell a fill with its bins, carbon dioxide, window and week, and the caution is asked for', () => {
    expect(titleOf('R2-gala')?.title).toMatch(
      /^235 bins · 70\.5 t · CO₂ [\d.]+ kg\/day · window \d{4}-W\d\d to \d{4}-W\d\d · release 2027-W01, pinned$/,
    );
    expect(titleOf('R2-gala')?.opening).toBe(true);
  });

  it('say so where they rest on a schedule of an older text, and only there', () => {
    const older = lensesOf(season, FRUIT, true);
    const marked = older.filter(({ older }) => older);
    expect(marked.map(({ at }) => textOf(at))).toContain('R2-gala');
    older.forEach(({ title, older }, index) => {
      const now = lenses[index]?.title;
      expect(title).toBe(older ? `${now} · before the last change` : now);
    });
    const { release: _, ...unscheduled } = season;
    const none = lensesOf({ ...unscheduled, release: undefined }, FRUIT, true);
    expect(none.some(({ older }) => older)).toBe(false);
    expect(none.length).toBeGreaterThan(0);
    const rooms = lensesOf(season, 'orrowby.lotplan.yaml', true);
    expect(rooms.find(({ at }) => textOf(at) === 'R2')?.older).toBe(false);
    for (const id of ['S1', 'gala-winter'])
      expect(rooms.find(({ at }) => textOf(at) === id)?.title, id).toMatch(/ · before the last change$/);
  });

  it('tell a room what it holds and what fills it', () => {
    const rooms = lensesOf(season, 'orrowby.lotplan.yaml');
    expect(rooms.find(({ at }) => textOf(at) === 'R2')?.title).toMatch(/^\d+ places · 365 m³ · R2-gala$/);
  });

  it('tell the bins of a lot that no fill takes, and nothing of lots that are placed', () => {
    const less = files.map(({ path, text }) => ({ path, text: text.replace('G1: 54, ', '') }));
    const left = lensesOf(computed(less).season, FRUIT).filter(({ title }) => title.includes('in no fill'));
    expect(left.map(({ title }) => title)).toEqual(['54 bins in no fill']);
    expect(titleOf('G1')).toBeUndefined();
  });
});

describe('hints at the ends of lines', () => {
  it('tell the other unit, the days of a week and the tonnes of bins, in even widths', () => {
    const text = files.find(({ path }) => path === FRUIT)?.text ?? '';
    const hints = hintsOf(plan, FRUIT, 0, text.length);
    const at = (line: string) => {
      const end = text.indexOf(line) + line.length;
      return hints.find(({ offset }) => offset === end)?.text.trimEnd();
    };
    expect(at('    temperature: 0.8 °C')).toBe('33.4 °F');
    expect(at('    sealed: 2026-09-18')).toBe('Fri W38');
    expect(at('    lots: { G1: 54, G2: 52, G3: 48 }')).toBe('16.2 t · 15.6 t · 14.4 t');
    for (const hint of hints) expect(hint.text.length % 8).toBe(0);
  });

  it('tell many lots of a line in all, and two lots of the same weight as two', () => {
    const lots = (given: string) => {
      const changed = files.map((file) =>
        file.path === FRUIT
          ? { ...file, text: file.text.replace('lots: { G1: 54, G2: 52, G3: 48 }', `lots: { ${given} }`) }
          : file,
      );
      const text = changed.find(({ path }) => path === FRUIT)?.text ?? '';
      const end = text.indexOf(`lots: { ${given} }`) + `lots: { ${given} }`.length;
      const found = hintsOf(readPlan(changed), FRUIT, 0, text.length).find(({ offset }) => offset === end);
      return found?.text.trimEnd();
    };
    expect(lots('G1: 54, G2: 52, G3: 48, G4: 10')).toBe('= 49.2 t');
    expect(lots('G1: 50, G2: 50')).toBe('15.0 t · 15.0 t');
  });

  it('stay within the lines asked for', () => {
    const text = files.find(({ path }) => path === FRUIT)?.text ?? '';
    const start = text.indexOf('  gala-own:');
    const end = text.indexOf('  braeburn-own:');
    for (const { offset } of hintsOf(plan, FRUIT, start, end)) {
      expect(offset).toBeGreaterThanOrEqual(start);
      expect(offset).toBeLessThan(end + 40);
    }
  });
});

describe('names in their colours', () => {
  it('tell where a name is defined, where it is named, and which is built in', () => {
    const painted = paintedNamesOf(plan, FRUIT);
    const kindsOf = (word: string) => [
      ...new Set(painted.filter(({ at }) => textOf(at) === word).map(({ kind }) => kind)),
    ];
    expect(kindsOf('gala-own').sort()).toEqual(['defined', 'own']);
    expect(kindsOf('Braeburn')).toEqual(['built-in']);
    expect(kindsOf('R2')).toEqual(['own']);
    expect([...painted].sort((a, b) => a.at.start - b.at.start)).toEqual(painted);
  });
});

describe('help with quantities', () => {
  it('says number and units, and which of them is being written', () => {
    const caret = (marked: string) => quantityHelpAt(plan, caretIn(files, FRUIT, marked));
    const atNumber = caret('  early-air:\n    varieties: [Gala]\n    temperature: 0‸.5 °C');
    expect(atNumber?.label).toBe('temperature: number °C | C | °F | F');
    expect(atNumber?.active).toBe(0);
    expect(caret('  early-air:\n    varieties: [Gala]\n    temperature: 0.5 °‸C')?.active).toBe(1);
    expect(caret('    room: R‸2')).toBeUndefined();
  });
});

describe('links and fixes', () => {
  it('lead from the code of an allowed finding to its page', () => {
    const text = 'rooms:\n  R1: {} # lotwright: allow room-without-tightness -- built next year\n';
    const allowed = readPlan([{ path: 'a', text }]);
    const [link] = pageLinksOf(allowed, 'a');
    expect(link === undefined ? undefined : text.slice(link.at.start, link.at.end)).toBe(link?.code);
  });

  it('lead from the name of a file of readings to the file', () => {
    const named = samplePlan('first-season');
    const at = named.find(({ text }) => /^readings:/m.test(text));
    const links = fileLinksOf(readPlan(named), at?.path ?? '');
    expect(links.map((link) => [at?.text.slice(link.at.start, link.at.end), link.file])).toEqual([
      ['readings.csv', 'readings.csv'],
    ]);
    const others = named.filter(({ path }) => path !== at?.path);
    expect(others.flatMap(({ path }) => fileLinksOf(readPlan(named), path))).toEqual([]);
  });

  it('fix what has one fix only, all at once', () => {
    const text =
      'lotwright: 1\nrooms:\n  R1:\n    inside: { length: 13, width: 5 m, height: 5 m }\n    bin-typ: b\n';
    const { season: broken, findings } = computed([{ path: 'a.lotplan.yaml', text }]);
    const edits = fixAllEdits(broken.plan, findings, 'a.lotplan.yaml');
    const single = findings.filter(({ fixes }) => fixes.length === 1);
    expect(single.length).toBeGreaterThan(0);
    expect(edits.length).toBeGreaterThanOrEqual(1);
    const fixed = applyEdits(broken.plan.files.get('a.lotplan.yaml')?.text ?? '', edits);
    const again = computed([{ path: 'a.lotplan.yaml', text: fixed }]).findings;
    expect(again.filter(({ fixes }) => fixes.length === 1).length).toBeLessThan(single.length);
  });
});
