/**
 * What findings say, in German: messages, titles of fixes, words about related places.
 *
 * How a text is translated (extension/finding-translator.ts; keys stand in both bundles of extension/l10n, after all
 * others, `[*]` first and then by code; the English bundle has each key as its own value):
 *
 * - `"[room-too-leaky] {0} leaks {1}.": "…"`: a template of the code, of a whole message, of a sentence of it, or of a part
 *   that stands for a value `{n}` of another template. Full stops are part of it. It takes `{0}` to `{9}`: a longer message
 *   is written sentence by sentence, which is better anyhow.
 * - `"[*] {0} bins": "{0} Großkisten"` is for every code: amounts, `from {0} on`, lists with `and`. A code's own go first,
 *   so that one code can have another case or gender: `"[that-code] {0} days": "{0} Tagen"`.
 * - Whatever a value is, it is translated in turn by the code's templates, by those for every code, sentence by sentence,
 *   or it stays as it is because it is a name, a number with its unit, a day, a week, or stands in backticks. All ways to
 *   take a text apart are tried until one leaves nothing in English; else all of it stays English.
 * - A value may be empty and may be a clause with its comma or space: `${cure}` behind a sentence is `{2}` before the full
 *   stop, with a template `"[code] , or give {0} a cooler"` of its own. What begins or ends with a space is trimmed first.
 * - A value in quotation marks in the translation, `„{0}“`, is the own words of whoever wrote the plan: it is not translated.
 * - Word by word alternatives (`is` or `are`) are templates of their own.
 * - Titles of fixes are looked up likewise, then as any other text of the server (translator.ts).
 *
 * Two tests watch it: one translates all that the pages' wrong examples and the sample plans give; the other takes the
 * words out of the source, `… {0} …` between values, and looks for each in a key, so that wordings that no example has
 * are not forgotten.
 */

import fs from 'node:fs';
import path from 'node:path';
import { describe, expect, it } from 'vitest';
import { isNameOrNumber, wholeFindings } from '../../extension/finding-translator';
import { translator } from '../../extension/translator';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import { rules } from '../../src/findings/rules';
import type { Finding } from '../../src/findings/types';
import { readPlan } from '../../src/plan/read';
import { root } from '../cli/in-process';
import { findingsOnExample, pageCodes, readPage } from '../findings/page';
import { literalsIn } from './literals';
import { namesIn } from './plan-names';

const bundle: Record<string, string> = JSON.parse(
  fs.readFileSync(path.join(root, 'extension/l10n/bundle.l10n.de.json'), 'utf8'),
);

/** What the texts of a finding may hold that is the same in every language. */
interface Told {
  readonly code: string;
  readonly text: string;
  readonly names: ReadonlySet<string>;
}

function toldOf(findings: readonly Finding[], names: ReadonlySet<string>): Told[] {
  return findings.flatMap(({ code, message, fixes, related }) =>
    [message, ...fixes.map(({ title }) => title), ...related.map((place) => place.message)].map((text) => ({
      code,
      text,
      names,
    })),
  );
}

function toldOnPages(): Told[] {
  return pageCodes().flatMap((code) =>
    readPage(code).wrong.flatMap((example) => toldOf(findingsOnExample(example), namesIn(example, rest))),
  );
}
const rest = fs.readFileSync(path.join(root, 'tests/findings/example-plan.lotplan.yaml'), 'utf8');

function toldOnSamples(): Told[] {
  const samples = path.join(root, 'sample-plans');
  return fs.readdirSync(samples).flatMap((sample) => {
    const folder = path.join(samples, sample);
    if (!fs.statSync(folder).isDirectory()) return [];
    const files = (fs.readdirSync(folder, { recursive: true }) as string[])
      .filter((name) => name.endsWith('.lotplan.yaml'))
      .map((name) => ({ path: name, text: fs.readFileSync(path.join(folder, name), 'utf8') }));
    const names = namesIn(...files.map(({ text }) => text));
    const season = computeSeason(readPlan(files), { release: 'quick', seed: 1, courses: true });
    return toldOf(findingsOf(season), names);
  });
}

/** What stays of a text in English: nothing, or all of it. */
function isWhole({ code, text, names }: Told): boolean {
  const same = (value: string) =>
    isNameOrNumber(value) && (names.has(value) || !/^\p{Lu}?\p{Ll}+$/u.test(value));
  if (wholeFindings(bundle, 'de', same)(code, text) !== undefined) return true;
  const left: string[] = [];
  translator(bundle, 'de', (part) => left.push(part))(text);
  return left.every((part) => names.has(part) && part !== text);
}

/** Files whose texts become messages of findings. */
const sources = [
  ...inFolder('src/findings/rules'),
  ...inFolder('src/plan/check'),
  ...inFolder('src/plan/text').filter((name) => !name.endsWith('parse.ts')),
  ...['apply.ts', 'problems.ts', 'take-out.ts'].map((name) => `src/scenario/${name}`),
  ...inFolder('src/expect'),
  ...['find.ts', 'say.ts'].map((name) => `src/findings/${name}`),
  'src/plan/merge.ts',
];

function inFolder(folder: string): string[] {
  return fs
    .readdirSync(path.join(root, folder))
    .filter((name) => name.endsWith('.ts') && !name.includes('generated'))
    .map((name) => `${folder}/${name}`);
}

/** Names of figures, and words between which a text chooses: nothing that a finding says. */
const NOT_SAID =
  /^(?:heat of lights|highest carbon dioxide among|integrated, each room|flow that brings a room|the logarithm of|twenty days$|(?:intake|remedies|cooler|flow) of$|not judged$|findings that stand|times as much$|the share asked|value of the schedule|no fruit is left|weeks (?:promised|of the window)$|a week that has begun|from its earliest|cartons short at most|no shortage is promised|orders less what|use of the packhouse|bins (?:packed in the week|it can run|stored)|share still in store|the fills of the plan)/;

/** What is said of promises that are kept, which are no findings. */
const OF_KEPT = /^(?:The plan has no finding|delivers all of|the busiest week|The last of it)/;

/** Words that stand together in the texts of a file, between values, things in backticks and ends of sentences. */
function wordsIn(file: string): string[] {
  const source = fs
    .readFileSync(path.join(root, file), 'utf8')
    .replace(
      /^ *summary:.*\n(?: *'.*\n)?|^import [\s\S]*?;\n|^const (?:SUMMARIES|OTHER_SPELLINGS)\b[\s\S]*?^};\n|throw new \w+\([^;]*;/gm,
      '',
    );
  const parts = literalsIn(source).flatMap((text) => text.split(/`[^`]*(?:`|$)|(?<=[.:!?]) /));
  const words = parts
    .filter((part) => /\p{L}{2,}[,;:]? \p{L}/u.test(part))
    .map((part) => part.replace(/^[^\p{L}(]+|[^\p{L})]+$/gu, ''));
  return [...new Set(words)].filter((part) => !NOT_SAID.test(part) && !OF_KEPT.test(part));
}

const told = [...toldOnPages(), ...toldOnSamples()];

describe('what findings say, in German', () => {
  it('is told by every code', () => {
    expect(new Set(told.map(({ code }) => code)).size).toBeGreaterThan(120);
  });

  for (const { code } of rules)
    it(code, () => {
      const english = new Set(
        told.filter((one) => one.code === code && !isWhole(one)).map(({ text }) => text),
      );
      expect([...english]).toEqual([]);
    });
});

describe('words of findings in the source', () => {
  const keys = Object.keys(bundle).map((key) => key.toLowerCase());
  for (const file of sources.filter((name) => wordsIn(name).length > 0))
    it(file, () => {
      const known = (words: string) => {
        const lower = words.toLowerCase();
        return keys.some((key) => key.includes(lower));
      };
      const missing = wordsIn(file).filter((words) => !known(words));
      expect(missing).toEqual([]);
    });
});
