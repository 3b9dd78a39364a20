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
import { isScalar, parseDocument, visit } from 'yaml';
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

const bundle: Record<string, string> = JSON.parse(
  fs.readFileSync(path.join(root, 'extension/l10n/bundle.l10n.de.json'), 'utf8'),
);

/** What the texts of a finding may hold that is the same in every language. */
interface Told {
  readonly code: string;
  readonly text: string;
  readonly names: ReadonlySet<string>;
}

/** Words of the plan language: a text may name them in backticks only. */
const planKeys = new Set(
  fs
    .readdirSync(path.join(root, 'schemas'))
    .filter((name) => name.endsWith('.json'))
    .flatMap((name) => [
      ...fs.readFileSync(path.join(root, 'schemas', name), 'utf8').matchAll(/"([a-z-]+)": \{/g),
    ])
    .map(([, key]) => key ?? ''),
);

/** Names that a plan's text gives: its values, and the keys it has of its own. */
function namesIn(...texts: readonly string[]): ReadonlySet<string> {
  const names = new Set<string>();
  for (const text of texts)
    visit(parseDocument(text, { logLevel: 'error', uniqueKeys: false }), {
      Scalar: (_at, { value }) => {
        if (typeof value !== 'string') return;
        names.add(value);
        for (const part of value.split(/[ ,/]+/)) names.add(part);
      },
      Pair: (_at, { key }) => {
        if (isScalar(key) && !planKeys.has(String(key.value))) names.add(String(key.value));
      },
    });
  return names;
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
  ...inFolder('src/scenario'),
  ...inFolder('src/expect'),
  ...['find.ts', 'happened.ts', 'say.ts', 'say-disorders.ts'].map((name) => `src/findings/${name}`),
  'src/plan/merge.ts',
];

function inFolder(folder: string): string[] {
  return fs
    .readdirSync(path.join(root, folder))
    .filter((name) => name.endsWith('.ts') && !name.includes('generated'))
    .map((name) => `${folder}/${name}`);
}

/** Words that stand together in the texts of a file, between values and ends of sentences. */
function wordsIn(file: string): string[] {
  const source = fs
    .readFileSync(path.join(root, file), 'utf8')
    .replace(/^ *summary:.*\n(?: *'.*\n)?|^import [\s\S]*?;\n|throw new \w+\([^;]*;/gm, '');
  const parts = literalsIn(source).flatMap((text) => text.split(/(?<=[.:!?]) /));
  const words = parts.filter((part) => /\p{L}{2,}[,;:]? \p{L}/u.test(part));
  return [...new Set(words.map((part) => part.replace(/^[^\p{L}`(]+|[^\p{L}`)]+$/gu, '')))];
}

/** Codes and files that are still English. */
const TO_DO: ReadonlySet<string> = new Set([
  'market-without-demand',
  'maturity-not-tested',
  'merge-conflict',
  'missing-key',
  'missing-value',
  'nitrogen-cannot-reach',
  'nitrogen-queue',
  'no-release-problem',
  'not-a-date',
  'not-a-quantity',
  'not-a-week',
  'not-allowed-value',
  'not-text',
  'opened-outside-window',
  'opened-room-low-oxygen',
  'opens-after-best-before',
  'out-of-range',
  'outside-season',
  'over-mature-lot-sealed',
  'oxygen-below-breakpoint',
  'oxygen-below-limit',
  'oxygen-climbs',
  'oxygen-high',
  'oxygen-low',
  'packed-beyond-what-went-in',
  'packed-more-than-bins-hold',
  'packing-overbooked',
  'packout-above-whole',
  'pin-outside-window',
  'places-disagree',
  'readings-not-read',
  'readings-rows-not-taken',
  'receipt-far-from-estimate',
  'receipts-disagree',
  'record-gap',
  'record-without-demand',
  'records-out-of-order',
  'refrigerant-not-named',
  'refrigeration-group-overloaded',
  'room-filled-twice',
  'room-left-closed',
  'room-mostly-unsold',
  'room-not-read',
  'room-not-ready',
  'room-overfilled',
  'room-partly-filled',
  'room-too-dry',
  'room-too-large-to-empty',
  'room-too-leaky',
  'sample-not-of-fill',
  'scenario-cannot-apply',
  'scrubber-overloaded',
  'seal-waits-after-last-bin',
  'sealed-before-cold',
  'sealed-late',
  'sealed-room-first',
  'sealed-without-scrubber',
  'sealing-and-regime-disagree',
  'section-missing',
  'sensor-jumps',
  'sensor-stuck',
  'set-point-late',
  'softer-than-market-wants',
  'sold-beyond-packed',
  'span-reversed',
  'stack-too-high',
  'supply-without-demand',
  'tab-indent',
  'temperature-high',
  'temperature-low',
  'tightness-not-tested',
  'too-many-problems',
  'unit-missing',
  'unknown-key',
  'unknown-reference',
  'unknown-rule',
  'unknown-unit',
  'unused-entry',
  'variety-unsuited-to-regime',
  'weak-lot-shortens-room',
  'weight-loss-high',
  'went-in-beyond-received',
  'window-empty',
  'wishes-conflict',
  'wrong-dimension',
  'wrong-type',
  'yaml-feature-not-allowed',
  'yaml-syntax',
  'src/expect/context.ts',
  'src/expect/judge.ts',
  'src/expect/loads.ts',
  'src/expect/money.ts',
  'src/expect/moves.ts',
  'src/expect/of-records.ts',
  'src/expect/openings.ts',
  'src/expect/orders.ts',
  'src/expect/packhouse.ts',
  'src/expect/store.ts',
  'src/expect/types.ts',
  'src/expect/unpinned-pair.ts',
  'src/expect/words.ts',
  'src/findings/find.ts',
  'src/findings/happened.ts',
  'src/findings/rules/air-first.ts',
  'src/findings/rules/beds.ts',
  'src/findings/rules/cooling.ts',
  'src/findings/rules/course.ts',
  'src/findings/rules/demand.ts',
  'src/findings/rules/disorders.ts',
  'src/findings/rules/expect.ts',
  'src/findings/rules/gas.ts',
  'src/findings/rules/growers.ts',
  'src/findings/rules/humidity.ts',
  'src/findings/rules/keeping.ts',
  'src/findings/rules/low-oxygen.ts',
  'src/findings/rules/nitrogen.ts',
  'src/findings/rules/order.ts',
  'src/findings/rules/plan.ts',
  'src/findings/rules/plausible.ts',
  'src/findings/rules/readings.ts',
  'src/findings/rules/receipts.ts',
  'src/findings/rules/record-names.ts',
  'src/findings/rules/records.ts',
  'src/findings/rules/release.ts',
  'src/findings/rules/room.ts',
  'src/findings/rules/safety.ts',
  'src/findings/rules/unsold.ts',
  'src/findings/say-disorders.ts',
  'src/plan/check/date-messages.ts',
  'src/plan/check/item-kinds.ts',
  'src/plan/check/key-messages.ts',
  'src/plan/check/quantity-messages.ts',
  'src/plan/check/section-messages.ts',
  'src/plan/check/value-messages.ts',
  'src/plan/merge.ts',
  'src/plan/text/chunk.ts',
  'src/plan/text/conflicts.ts',
  'src/plan/text/document-marks.ts',
  'src/plan/text/features.ts',
  'src/plan/text/normal.ts',
  'src/plan/text/read-chunk.ts',
  'src/plan/text/read-file.ts',
  'src/plan/text/say.ts',
  'src/plan/text/split.ts',
  'src/plan/text/syntax-messages.ts',
  'src/scenario/apply.ts',
  'src/scenario/demand-to-come.ts',
  'src/scenario/factors.ts',
  'src/scenario/problems.ts',
  'src/scenario/stress.ts',
  'src/scenario/take-out.ts',
  'src/scenario/within-places.ts',
  'src/scenario/worst-days.ts',
]);

const told = [...toldOnPages(), ...toldOnSamples()];

describe('what findings say, in German', () => {
  it('is told by every code', () => {
    expect(new Set(told.map(({ code }) => code)).size).toBeGreaterThan(120);
  });

  for (const { code } of rules)
    it.skipIf(TO_DO.has(code))(code, () => {
      const english = new Set(
        told.filter((one) => one.code === code && !isWhole(one)).map(({ text }) => text),
      );
      expect([...english]).toEqual([]);
    });
});

describe('words of findings in the source', () => {
  const keys = Object.keys(bundle);
  for (const file of sources.filter((name) => wordsIn(name).length > 0))
    it.skipIf(TO_DO.has(file))(file, () => {
      const missing = wordsIn(file).filter((words) => !keys.some((key) => key.includes(words)));
      expect(missing).toEqual([]);
    });
});
