/**
 * What hovers, proposals and help with quantities say, in German (extension/hover-translator.ts). Keys of the bundles:
 *
 * - `"[key] Time between the two.": "…"`: what a key of the plan language means, as the schema says it, in one piece.
 * - `"[rule] A key stands twice.": "…"`: what a finding is about.
 * - `"[hover] Kept in air.": "…"`: all else, with the names of figures. They are written as those of findings are: their
 *   values nest, and `[*]` holds for them too. In backticks a value stays as it is, as in `„{0}“`.
 *
 * A line stays English as a whole where something of it would; here none does, over all sample plans, every key of the
 * schema, and every built-in variety and regime. Formulas are code, and what cites a publication is a quotation.
 */

import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { isNameOrNumber } from '../../extension/finding-translator';
import { hoverTranslator, partsIn } from '../../extension/hover-translator';
import { translator } from '../../extension/translator';
import { rules } from '../../src/findings/rules';
import { fruitData } from '../../src/fruit/data';
import { readPlan } from '../../src/plan/read';
import { cautionInShort } from '../../src/room/caution';
import { type Guide, planGuide } from '../../src/server/services/schema-guide';
import { root } from '../cli/in-process';
import { literalsIn } from './literals';
import { namesIn } from './plan-names';
import {
  helpOfKeys,
  hoversOf,
  hoversOfBuiltIn,
  hoversOfKeys,
  newEntriesOf,
  proposalsOf,
  proposalsOfKeys,
  sampleSeasons,
  unusualSeason,
} from './told-in-hovers';

const bundle: Record<string, string> = JSON.parse(
  fs.readFileSync(path.join(root, 'extension/l10n/bundle.l10n.de.json'), 'utf8'),
);
const seasons = new Map([...sampleSeasons(), ['an unusual plant', unusualSeason()] as const]);

/** Words that are the same everywhere: of the sample plans, of the built-in fruit, and those that a key allows. */
const names = new Set([
  'x',
  ...[...seasons.values()].flatMap(({ plan }) => [
    ...namesIn(...[...plan.files.values()].map(({ text }) => text)),
  ]),
  ...fruitData(readPlan([])).varietyNames,
  ...allowedWords(planGuide),
]);

function allowedWords(guide: Guide): string[] {
  const { properties = {}, additionalProperties, items } = guide;
  const inside = [
    ...Object.values(properties),
    ...(typeof additionalProperties === 'object' ? [additionalProperties] : []),
    ...(items ? [items] : []),
  ];
  const own = [guide['x-default'], guide.const].filter((word) => /^[a-z-]+$/.test(String(word))).map(String);
  return [...(guide.enum ?? []), ...own, ...inside.flatMap(allowedWords)];
}

const isSame = (text: string) => isNameOrNumber(text) && (names.has(text) || !/^\p{Lu}?\p{Ll}+$/u.test(text));

/** A translator, and the lines it left in English. */
function german() {
  const left = new Set<string>();
  return { left, ...hoverTranslator(bundle, 'de', isSame, (line) => left.add(line)) };
}

describe('hovers in German', () => {
  it.each([...seasons])('over each word of %s', (sample, season) => {
    const { left, markdown } = german();
    const told = hoversOf(sample, season);
    for (const { text } of told) markdown(text);
    expect(told.length).toBeGreaterThan(80);
    expect([...left]).toEqual([]);
  });

  it('over each key of the plan language and its example', () => {
    const { left, markdown } = german();
    const told = hoversOfKeys();
    for (const { text } of told) markdown(text);
    expect(told.length).toBeGreaterThan(1_000);
    expect([...left]).toEqual([]);
  });

  it('over each built-in variety and regime', () => {
    const { left, markdown } = german();
    const told = hoversOfBuiltIn();
    for (const { text } of told) markdown(text);
    expect(told.length).toBeGreaterThan(150);
    expect([...left]).toEqual([]);
  });

  it('say the whole caution before anything that tells of opening', () => {
    const { markdown } = german();
    const season = seasons.get('first-season');
    const told = (season ? hoversOf('first-season', season) : []).filter(({ text }) =>
      text.includes(cautionInShort),
    );
    expect(told.length).toBeGreaterThan(2);
    for (const { text } of told) expect(markdown(text).startsWith(`*${bundle[cautionInShort]}*`)).toBe(true);
    for (const { text } of told) expect(markdown(text)).not.toMatch(/\bsicher(?:e[mnrs]?)?\b.*Kühlzelle/);
  });

  it('leave formulas, examples and what the planner has written as they are', () => {
    const { markdown } = german();
    expect(markdown('- **leak in service** = `leakAtTest * servicePressure / testPressure`  ')).toBe(
      '- **Undichtigkeit im Betrieb** = `leakAtTest * servicePressure / testPressure`  ',
    );
    expect(markdown('Default: 20 cm. Example: `12.5 cm`.')).toBe('Vorgabe: 20 cm. Beispiel: `12.5 cm`.');
    expect(markdown('Allowed here: the room is \\*old\\*')).toBe('Hier zugelassen: „the room is \\*old\\*“');
    expect(markdown('2026-09-04: Friday of ISO week 2026-W36.')).toBe('„2026-09-04“: Freitag in KW 36/2026.');
    expect(markdown('- room volume: 1,123.5 m³')).toBe('- Volumen der Kühlzelle: 1.123,5 m³');
  });

  it('stay English line by line where the bundle lacks one, and all without a bundle', () => {
    const { markdown } = hoverTranslator({ '[hover] Kept in air.': 'In Luft gehalten.' }, 'de');
    expect(markdown('Kept in air.\n\nKept in something else.')).toBe(
      'In Luft gehalten.\n\nKept in something else.',
    );
    expect(hoverTranslator(undefined, 'en').markdown('Kept in air.')).toBe('Kept in air.');
  });
});

describe('proposals in German', () => {
  const proposed = [
    ...proposalsOfKeys(),
    ...[...seasons].flatMap(([sample, season]) => [
      ...proposalsOf(sample, season),
      ...newEntriesOf(sample, season),
    ]),
  ];

  it('are told of in full', () => {
    const { left, plain } = german();
    for (const { documentation } of proposed) plain(documentation);
    expect(new Set(proposed.map(({ documentation }) => documentation)).size).toBeGreaterThan(400);
    expect([...left]).toEqual([]);
  });

  it('are named, where they are whole entries', () => {
    const { left, plain } = german();
    const entries = new Set(proposed.map(({ entry }) => entry));
    for (const entry of entries) plain(entry);
    expect(entries.size).toBeGreaterThan(30);
    expect([...left]).toEqual([]);
    expect(plain('new room')).toBe('neu: Kühlzelle');
  });

  it('say what they are', () => {
    const { plain } = german();
    const left = new Set<string>();
    const say = translator(bundle, 'de', (part) => left.add(part));
    const details = new Set(proposed.map(({ detail }) => detail));
    for (const detail of details) if (plain(detail) === detail) say(detail);
    expect(details.size).toBeGreaterThan(100);
    expect([...left].filter((part) => !names.has(part))).toEqual([]);
  });
});

describe('help with quantities in German', () => {
  const told = helpOfKeys();

  it('says what each key means', () => {
    const { left, plain } = german();
    for (const { help } of told) plain(help.description);
    expect(told.length).toBeGreaterThan(100);
    expect([...left]).toEqual([]);
  });

  it('names the number, and leaves key and units as the plan has them', () => {
    const { plain } = german();
    for (const { help } of told) {
      const { label, places } = partsIn(
        help.label,
        help.parts.map(([start, end]) => [start, end]),
        (text, at) => (at === 0 ? plain(text) : text),
      );
      expect(label).toBe(help.label.replace(': number ', ': Zahl '));
      expect(places.map(([start, end]) => label.slice(start, end))).toEqual([
        'Zahl',
        help.label.slice(...(help.parts[1] ?? [])),
      ]);
    }
  });
});

/** Files whose texts become hovers, proposals and help. */
const SOURCES = [
  'completion-entry',
  'completion-fills',
  'completion-known',
  'completion-records',
  'completion',
  'consequences-text',
  'consequences',
  'dates-told',
  'demand-outcome',
  'hover-figures',
  'hover',
  'quantity-help',
].map((name) => `src/server/services/${name}.ts`);

/** Values that are written into plans. */
const NOT_SAID = /^(?:no-shortage|variety: Gala|firmness: 66 N|fruit: 20)/;

describe('words of hovers in the source', () => {
  const keys = Object.keys(bundle).map((key) => key.toLowerCase());
  it.each(SOURCES)('%s', (file) => {
    const source = fs.readFileSync(path.join(root, file), 'utf8').replace(/^import [\s\S]*?;\n/gm, '');
    const words = literalsIn(source)
      .map((text) => text.replace(/^(?:nn)+/, ''))
      .flatMap((text) => text.split(/`[^`]*(?:`|$)|(?<=[.:!?]) /))
      .filter((part) => /\p{L}{2,}[,;:]? \p{L}/u.test(part))
      .map((part) => part.replace(/^[^\p{L}(]+|[^\p{L})]+$/gu, ''))
      .filter((part) => !NOT_SAID.test(part));
    const missing = words.filter((part) => !keys.some((key) => key.includes(part.toLowerCase())));
    expect([...new Set(missing)]).toEqual([]);
  });
});

describe('what is said beside figures', () => {
  it.each(['course-beside', 'course-figures', 'course-plant', 'lime-figures'])('%s', (name) => {
    const source = fs.readFileSync(path.join(root, `src/report/${name}.ts`), 'utf8');
    const told = literalsIn(source).filter((text) => /^[A-Z][^`]*\.$|^(?:above|what) .*,? /.test(text));
    expect(told.length).toBeGreaterThan(0);
    for (const text of told) expect(bundle, text).toHaveProperty([`[hover] ${text}`]);
  });
});

describe('meanings', () => {
  it('are there for each rule', () => {
    for (const { summary } of rules) expect(bundle, summary).toHaveProperty([`[rule] ${summary}`]);
  });
});
