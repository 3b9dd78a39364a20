/**
 * All that hovers, proposals and help with quantities say: at each place of the sample plans, and at each key of the plan
 * language in a text made for it, with the default's and the example's words.
 */

import fs from 'node:fs';
import path from 'node:path';
import { computeSeason } from '../../src/findings/compute';
import type { ComputedSeason } from '../../src/findings/types';
import { fruitData } from '../../src/fruit/data';
import type { Plan } from '../../src/plan/model';
import { readPlan } from '../../src/plan/read';
import { completionAt } from '../../src/server/services/completion';
import { hoverAt } from '../../src/server/services/hover';
import { type QuantityHelp, quantityHelpAt } from '../../src/server/services/quantity-help';
import { type Guide, guideAt, planGuide } from '../../src/server/services/schema-guide';
import { root } from '../cli/in-process';

/** What one hover says, and where it was asked for. */
export interface Told {
  readonly where: string;
  readonly text: string;
}

const samples = path.join(root, 'sample-plans');

/** The sample plans, computed. */
export function sampleSeasons(): ReadonlyMap<string, ComputedSeason> {
  const folders = fs
    .readdirSync(samples)
    .filter((name) => fs.statSync(path.join(samples, name)).isDirectory());
  return new Map(folders.map((name) => [name, sampleSeason(name)]));
}

function sampleSeason(sample: string): ComputedSeason {
  return computeSeason(readPlan(filesOf(sample)), { release: 'quick', seed: 1, courses: true });
}

function filesOf(sample: string) {
  const folder = path.join(samples, sample);
  return (fs.readdirSync(folder, { recursive: true }) as string[])
    .filter((name) => name.endsWith('.lotplan.yaml'))
    .map((name) => ({ path: name, text: fs.readFileSync(path.join(folder, name), 'utf8') }));
}

/** What stands in `first-season`, and what makes a plant of it that no sample has: figures come about in other ways then. */
const UNUSUAL: readonly (readonly [string | RegExp, string])[] = [
  [/kind: carbon\n/, 'kind: membrane\n      selectivity: { over-oxygen: 6, over-nitrogen: 25 }\n'],
  [/ {6}beds: .*\n/, ''],
  ['charge: 3 t', 'charge: 60 kg\n      out: [2026-12-01..2026-12-05]'],
  [/ {4}tightness: .*31 min.*\n/, '    leakage: { in-service: 0.4 m3/h }\n'],
  [
    / {4}tightness: .*26 min.*\n/,
    '    tightness: { from: 250 Pa, to: 125 Pa, after: 3 min }\n    breather-bag: 4 m3\n',
  ],
  ['material: plastic', 'material: wood'],
  [/ {8}- \{ purity: 99.*\n/, ''],
  ['flow: 60 m3/h', 'flow: 6 m3/h'],
  ['capacity: 18 kW, group: engine-room }', 'capacity: 3 kW, group: engine-room }'],
  ['open: 2027-W01', 'open: 2027-W20'],
  ['lots: { D1: 97, D2: 95, D3: 95 }', 'lots: { D1: 97, D2: 95, D3: 95 }\n    respiration: { value: 120 % }'],
  ['sealed: 2026-10-16', 'sealed: 2026-10-17\n    kept-for: [schools]'],
  ['R1-gala:', 'R0-none:\n    room: R1\n  R1-gala:'],
];

/** The season of `first-season` with an unusual plant. */
export function unusualSeason(): ComputedSeason {
  const files = filesOf('first-season').map(({ path: name, text }) => ({
    path: name,
    text: UNUSUAL.reduce((changed, [from, to]) => changed.replace(from, to), text),
  }));
  return computeSeason(readPlan(files), { release: 'quick', seed: 1, courses: true });
}

/** Hovers over each word of a season's lines; texts that stand over several words are told once. */
export function hoversOf(sample: string, season: ComputedSeason): Told[] {
  const found = new Map<string, Told>();
  for (const { file, index, line } of linesOf(season))
    for (const { index: at } of line.matchAll(/[^\s{}[\],:"']+/g)) {
      const hover = hoverAt(season, { file, offset: index + at });
      if (hover && !found.has(hover.markdown))
        found.set(hover.markdown, { where: `${sample}/${file} ${index + at}`, text: hover.markdown });
    }
  return [...found.values()];
}

/** A key of the plan language: a text in which it stands by itself, and the places of key and value in it. */
export interface KeyText {
  readonly path: string;
  readonly text: string;
  readonly key: number;
  readonly value: number;
}

/** Every key of the language, in a text of its own; entries of maps are called `x`. */
export function keyTexts(): KeyText[] {
  const found: KeyText[] = [];
  const visit = (guide: Guide, steps: readonly string[]): void => {
    if (steps.length > 0) found.push(keyText(steps, guide));
    for (const [key, child] of Object.entries(guide.properties ?? {})) visit(child, [...steps, key]);
    if (typeof guide.additionalProperties === 'object') visit(guide.additionalProperties, [...steps, 'x']);
    if (guide.items) visit(guide.items, [...steps, '[]']);
  };
  visit(planGuide, []);
  return found;
}

function keyText(steps: readonly string[], guide: Guide): KeyText {
  let text = '';
  let [indent, key] = ['', 0];
  steps.forEach((step, at) => {
    if (step === '[]') {
      text = `${text.trimEnd()}\n${indent}- `;
      key = text.length;
    } else {
      const begins = text === '' || text.endsWith('- ') ? '' : '\n';
      text += `${begins}${begins === '' ? '' : indent}`;
      key = text.length;
      text += `${step}:${at === steps.length - 1 ? ' ' : ''}`;
    }
    indent += '  ';
  });
  const example = guide.examples?.[0] ?? guide.enum?.[0] ?? '';
  const value = text.length;
  return {
    path: steps.join('.'),
    text: `${text}${typeof example === 'object' ? '' : String(example)}\n`,
    key,
    value,
  };
}

const FILE = 'plan.lotplan.yaml';

/** A plan of one text, and the season it makes. */
function seasonOf(text: string): ComputedSeason {
  return computeSeason(readPlan([{ path: FILE, text }]), { release: 'none', seed: 1, courses: false });
}

/** Hovers over each key and over its example. */
export function hoversOfKeys(): Told[] {
  return keyTexts().flatMap(({ path: where, text, key, value }) => {
    const season = seasonOf(text);
    return [key, value].flatMap((offset) => {
      const hover = hoverAt(season, { file: FILE, offset });
      return hover ? [{ where, text: hover.markdown }] : [];
    });
  });
}

/** Hovers over the name of every built-in variety and regime. */
export function hoversOfBuiltIn(): Told[] {
  const fruit = fruitData(readPlan([]));
  const text = [
    'lotwright: 1',
    'lots:',
    ...fruit.varietyNames.map((name, at) => `  L${at}: { variety: ${JSON.stringify(name)} }`),
    'fills:',
    ...fruit.regimeNames.map((name, at) => `  F${at}: { regime: ${name} }`),
  ].join('\n');
  return hoversOf('built-in', seasonOf(text));
}

/** What helps while each quantity is written. */
export function helpOfKeys(): { readonly where: string; readonly help: QuantityHelp }[] {
  return keyTexts().flatMap(({ path: where, text, value }) => {
    const help = quantityHelpAt(readPlan([{ path: FILE, text }]), { file: FILE, offset: value + 1 });
    return help ? [{ where, help }] : [];
  });
}

/** What stands behind proposals, and what is said of them: at each key and value of the language. */
export function proposalsOfKeys(): Proposed[] {
  return keyTexts().flatMap(({ path: where, text, key, value }) => {
    const plan = readPlan([{ path: FILE, text }]);
    return [key, value, value + 1].flatMap((offset) => proposalsAt(plan, undefined, where, FILE, offset));
  });
}

/** The same at the keys, the values and the ends of a season's lines; lines that differ in numbers only are asked once. */
export function proposalsOf(sample: string, season: ComputedSeason): Proposed[] {
  const found = new Map<string, Proposed>();
  for (const { file, index, line } of linesOf(season))
    for (const at of [line.search(/\S/), line.indexOf(': ') + 2, line.length])
      for (const one of proposalsAt(season.plan, season, `${sample}/${file}`, file, index + at))
        found.set(`${one.entry} ${one.detail} ${one.documentation}`, one);
  return [...found.values()];
}

/** Whole entries that are proposed on a new line of each section, beside what a season's plan has. */
export function newEntriesOf(sample: string, { plan }: ComputedSeason): Proposed[] {
  const files = [...plan.files].map(([name, { text }]) => ({ path: name, text }));
  return Object.keys(planGuide.properties ?? {})
    .flatMap((section) =>
      section === 'plant'
        ? Object.keys(guideAt(['plant'])?.properties ?? {}).map((one) => `plant:\n  ${one}`)
        : [section],
    )
    .flatMap((section) => {
      const text = `${section}:\n${section.includes(' ') ? '    ' : '  '}`;
      const more = { path: 'more.lotplan.yaml', text };
      return proposalsAt(
        readPlan([...files, more]),
        undefined,
        `${sample} ${section}`,
        more.path,
        text.length,
      );
    });
}

/** What one proposal says: behind it, and of it. */
export interface Proposed {
  readonly where: string;
  /** The name of a whole entry; of all else it is a word of the plan. */
  readonly entry: string;
  readonly detail: string;
  readonly documentation: string;
}

function proposalsAt(
  plan: Plan,
  season: ComputedSeason | undefined,
  where: string,
  file: string,
  offset: number,
): Proposed[] {
  return completionAt(plan, { file, offset }, season).map(({ label, snippet, detail, documentation }) => ({
    where,
    entry: snippet === undefined ? '' : label,
    detail,
    documentation,
  }));
}

/** Lines of a season's files; of those that differ in numbers and names of entries only, the first of each file. */
function linesOf({ plan }: ComputedSeason) {
  return [...plan.files].flatMap(([file, { text }]) => {
    const seen = new Set<string>();
    return [...text.matchAll(/^(?!\s*#).+$/gm)].flatMap(({ index, 0: line }) => {
      const shape = line.replace(/[\w.-]*\d[\w.-]*/g, '0');
      if (seen.has(shape)) return [];
      seen.add(shape);
      return [{ file, index, line }];
    });
  });
}
