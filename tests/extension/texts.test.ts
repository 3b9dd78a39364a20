import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { findingTranslator } from '../../extension/finding-translator';
import { english } from '../../extension/panel/words-english';
import { cautionTranslator, translator, valuesOf } from '../../extension/translator';
import { lessonsIn, roomCardIn, seasonCardIn, viewIn } from '../../extension/view-texts';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { learnAll } from '../../src/learning/learn';
import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { displayUnits } from '../../src/report/explain';
import { lessonLine } from '../../src/report/learn-words';
import { cardLessons } from '../../src/report/lesson-card';
import { roomCard } from '../../src/report/room-card';
import { seasonCard } from '../../src/report/season-card';
import { timelineView } from '../../src/report/timeline';
import { caution, cautionInShort, limeCaution, refrigerantCaution } from '../../src/room/caution';
import { hintsOf } from '../../src/server/services/hints';
import { lensesOf } from '../../src/server/services/lenses';
import { root } from '../cli/in-process';
import { sampleReadings } from '../samples/readings';

const read = (file: string) => fs.readFileSync(path.join(root, file), 'utf8');
const texts = (file: string): Record<string, string> => JSON.parse(read(file));
const bundle = {
  en: texts('extension/l10n/bundle.l10n.json'),
  de: texts('extension/l10n/bundle.l10n.de.json'),
};
const manifest = {
  en: texts('extension/l10n/package.nls.json'),
  de: texts('extension/l10n/package.nls.de.json'),
};

const hostFiles = fs.readdirSync(path.join(root, 'extension')).filter((name) => name.endsWith('.ts'));
const panelFiles = fs.readdirSync(path.join(root, 'extension/panel')).filter((name) => name.endsWith('.ts'));

/** What the extension host says by itself. */
const hostTexts = hostFiles.flatMap((name) =>
  [...read(`extension/${name}`).matchAll(/l10n\.t\(\s*'((?:[^'\\]|\\.)*)'/g)].map(([, text]) => text ?? ''),
);

function placeholders(text: string): string[] {
  return [...text.matchAll(/\{\d\}/g)].map(([one]) => one).sort();
}

describe('texts in English and German', () => {
  it('have the same keys, with the same places for values', () => {
    for (const { en, de } of [bundle, manifest]) {
      expect(Object.keys(de)).toEqual(Object.keys(en));
      for (const [key, text] of Object.entries(en)) {
        expect(de[key]?.trim(), key).toBeTruthy();
        expect(placeholders(de[key] ?? ''), key).toEqual(placeholders(text));
      }
    }
    expect(Object.keys(bundle.en).length).toBeGreaterThan(500);
    for (const [key, text] of Object.entries(bundle.en)) expect(text).toBe(key);
  });

  it('are all there for what the extension host and the page say', () => {
    expect(hostTexts.length).toBeGreaterThan(100);
    for (const text of [...hostTexts, ...Object.values(english)])
      expect(bundle.de, text).toHaveProperty([text]);
  });

  it('hold nothing that nobody says any more', () => {
    const own = new Set<string>([...hostTexts, ...Object.values(english)]);
    const sources = sourcesOf('src')
      .map((file) =>
        read(file)
          .replace(/'\s*\+\s*'/g, '')
          .replaceAll('\\`', '`'),
      )
      .join('\n')
      .toLowerCase();
    const unused = Object.keys(bundle.en).filter((key) => {
      if (own.has(key)) return false;
      // A template's words stand in the source between its values.
      const fragments = key
        .replace(/^\[[a-z*-]+\] /, '')
        .split(/\{\d\}|[.,;:()"]/)
        .map((part) => part.trim().toLowerCase());
      return !fragments.every((part) => part === '' || sources.includes(part) || inParts(sources, part));
    });
    expect(unused).toEqual([]);
    const manifestText = read('package.json');
    for (const key of Object.keys(manifest.en)) expect(manifestText, key).toContain(`"%${key}%"`);
  });

  it('have the cautions in full', () => {
    for (const one of [caution, cautionInShort]) {
      const german = bundle.de[one] ?? '';
      for (const word of [
        'töten',
        'keine Erlaubnis',
        'Sauerstoff und Kohlendioxid, beide',
        'kalibrierten Messgerät',
      ])
        expect(german).toContain(word);
      for (const word of ['Örtliche Vorschriften', 'ausgebildetes, befugtes Personal', 'entscheiden'])
        expect(german).toContain(word);
    }
    expect(bundle.de[caution]).toContain('19,5 %');
    expect(bundle.de[limeCaution]).toContain(
      'Sauerstoff und Kohlendioxid, beide, mit einem kalibrierten Messgerät',
    );
    expect(bundle.de[refrigerantCaution]).toContain('kalibrierten Messgeräten');
    const finding = findingTranslator(bundle.de, 'de');
    const page = cautionTranslator(bundle.de);
    const lines = caution.replace(/ (from|leave|anyone|carbon|codes) /g, ' $1\n');
    expect(page(`# R2\n\n${lines}\n`)).toBe(`# R2\n\n${bundle.de[caution]}\n`);
    expect(page(`> ${caution.replace(/leave to/, 'leave\n> to')}`)).toBe(`> ${bundle.de[caution]}`);
    expect(finding('any', `R2 opens late. ${cautionInShort}`)).toBe(
      `R2 opens late. ${bundle.de[cautionInShort]}`,
    );
  });

  it('are said nowhere but through the lists', () => {
    const shown =
      /(?:show(?:Information|Warning|Error)Message\(\s*|setStatusBarMessage\(\s*|createWebviewPanel\(\w+, |\b(?:title|label|detail|description|placeHolder|prompt|openLabel|saveLabel|placeholder|tooltip): |'aria-label': |textContent = )(?:'([^']*)'|`([^`]*)`)/;
    const words = (line: string) => {
      const [, plain = '', template = ''] = shown.exec(line) ?? [];
      // What goes to the server comes back in its sentences, and is translated then.
      if (Object.hasOwn(bundle.en, plain)) return false;
      return /\p{L}{2}/u.test(plain + template.replace(/\$\{[^}]*\}/g, ''));
    };
    // Names of formats are the same everywhere.
    const names = /description: 'HTML'/;
    const found = [
      ...hostFiles.map((name) => `extension/${name}`),
      ...panelFiles.map((name) => `extension/panel/${name}`),
    ]
      .filter((file) => !file.endsWith('words-english.ts'))
      .flatMap((file) =>
        read(file)
          .split('\n')
          .filter((line) => words(line) && !names.test(line))
          .map((line) => `${file}: ${line.trim()}`),
      );
    expect(found).toEqual([]);
    expect(elementTexts()).toEqual([]);
  });
});

/** Texts that the page's source makes elements of by themselves. */
function elementTexts(): string[] {
  return panelFiles.flatMap((name) =>
    [...read(`extension/panel/${name}`).matchAll(/element\([^()]*\}, '([A-Za-z][^']*)'\)/g)].map(
      ([, text]) => `${name}: ${text}`,
    ),
  );
}

/** Some words are put together: a number's unit, a plural, a capital letter. */
function inParts(sources: string, part: string): boolean {
  return part
    .split(/\s+/)
    .every((word) => sources.includes(word) || sources.includes(word.replace(/s$/, '')));
}

function sourcesOf(folder: string): string[] {
  return (fs.readdirSync(path.join(root, folder), { recursive: true }) as string[])
    .filter((name) => name.endsWith('.ts') && !name.includes('generated'))
    .map((name) => path.join(folder, name));
}

/** What a planner or the built-in data has given a name: it is the same in every language. */
function namesIn(plan: Plan): Set<string> {
  const { rooms, fills, lots, samples, regimes, demand } = plan;
  const { scrubbers, nitrogenSources, refrigerationGroups } = plan;
  const maps = [
    rooms,
    fills,
    lots,
    samples,
    regimes,
    demand,
    scrubbers,
    nitrogenSources,
    refrigerationGroups,
  ];
  const texts = [...plan.files.values()].map(({ text }) => text).join('\n');
  const given = [...texts.matchAll(/(?:variety|class|classes|regime): ["']?([^,}\n#"']+)/g)].map(
    ([, name]) => name?.trim() ?? '',
  );
  return new Set([...maps.flatMap((map) => [...map.keys()]), ...given]);
}

describe('what the server says', () => {
  it.each(['first-season', 'us-units', 'with-mistakes', 'mid-harvest', 'in-march'])(
    'is in German, but for names: %s',
    (sample) => {
      const folder = path.join(root, 'sample-plans', sample);
      const files = (fs.readdirSync(folder, { recursive: true }) as string[])
        .filter((name) => name.endsWith('.lotplan.yaml'))
        .map((name) => ({ path: name, text: fs.readFileSync(path.join(folder, name), 'utf8') }));
      const left = new Set<string>();
      const say = translator(bundle.de, 'de', (part) => left.add(part));
      const finding = findingTranslator(bundle.de, 'de');
      const plan = readPlan(files);
      const readings = sampleReadings(sample, plan);
      for (const release of ['quick', 'none'] as const) {
        const season = computeSeason(plan, { release, seed: 1, courses: true });
        const { lessons } = learnAll(season.plan, season.filled, readings);
        for (const lesson of lessons) say(lessonLine(lesson, displayUnits(plan)));
        for (const key of season.filled.keys()) lessonsIn(cardLessons(plan, lessons, key), say);
        const findings = findingsOf(season);
        viewIn(timelineView(season, findings, { revision: 1, today: 20_720 }), say, finding);
        for (const key of [
          ...season.filled.keys(),
          ...[...plan.rooms.keys()].map((room) => `room:${room}`),
        ]) {
          const card = roomCard(season, findings, key, 1, readings);
          if (card) roomCardIn(card, say, finding);
        }
        seasonCardIn(seasonCard(season, findings, 1), say, finding);
        for (const { path: file, text } of files) {
          for (const { title } of lensesOf(season, file)) say(title);
          for (const { text: hint } of hintsOf(plan, file, 0, text.length)) say(hint.replace(/\u2007+$/, ''));
        }
      }
      const names = namesIn(plan);
      const untranslated = [...left].filter(
        (part) => !names.has(part) && !/^[\d.,–-]+ (min|kPa|Pa|lb|ft|kW)$/.test(part),
      );
      expect(untranslated).toEqual([]);
    },
  );

  it('has numbers, days and weeks as German writes them, and names as they are', () => {
    const value = valuesOf('de');
    expect(value('12,345.6 m³')).toBe('12.345,6 m³');
    expect(value('0.50 %')).toBe('0,50 %');
    expect(value('-1.7 °C')).toBe('-1,7 °C');
    expect(value('bed-1.7')).toBe('bed-1.7');
    expect(value('3.8 kg/day')).toBe('3,8 kg/Tag');
    expect(value('44 lb/day')).toBe('44 lb/Tag');
    expect(value('2026-09-08')).toBe('08.09.2026');
    expect(value('2027-W09')).toBe('KW 09/2027');
    expect(translator(bundle.de, 'de')('Short weeks: 2026-W43..2026-W45, 2027-W02.')).toBe(
      'Wochen mit Fehlmengen: KW 43/2026..KW 45/2026, KW 02/2027.',
    );
    expect(value('R2.free-gas-volume')).toBe('R2.free-gas-volume');
    expect(value('lot-2026-09-08')).toBe('lot-2026-09-08');
    expect(valuesOf('en')('12,345.6 m³')).toBe('12,345.6 m³');
  });

  it('is taken apart into sentences and clauses', () => {
    const say = translator(bundle.de, 'de');
    expect(say('Opens 2027-W01, pinned, 2 weeks after best before, and is packed out by 2027-W03.')).toBe(
      'Auslagerung KW 01/2027, festgelegt, 2 Wochen nach dem besten Termin, leer gepackt bis KW 03/2027.',
    );
    expect(say('Room R2: Gala, 1,235 bins, in gala-standard. Kept anyhow.')).toBe(
      'Kühlzelle R2: Gala, 1.235 Großkisten, in gala-standard. Kept anyhow.',
    );
    expect(say('')).toBe('');
  });

  it('has messages of findings by their code, whole or not at all', () => {
    const finding = findingTranslator({ '[too-warm] {0} is {1} too warm': '{0} ist um {1} zu warm' }, 'de');
    expect(finding('too-warm', 'R2 is 1.5 °C too warm')).toBe('R2 ist um 1,5 °C zu warm');
    expect(finding('other', 'R2 is 1.5 °C too warm')).toBe('R2 is 1.5 °C too warm');
    expect(finding('too-warm', 'R2 is cold')).toBe('R2 is cold');
  });
});
