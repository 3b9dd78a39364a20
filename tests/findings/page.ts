import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { parseDocument } from 'yaml';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import type { ComputedSeason, Finding } from '../../src/findings/types';
import { formatDay, parseDay } from '../../src/plan/dates';
import { readPlan } from '../../src/plan/read';
import { readReadings } from '../../src/readings/read-readings';
import { expectedOf } from '../../src/report/watching';
import { recordMore } from '../../src/watching/record';
import { seenReadings } from '../../src/watching/seen-readings';

const PAGES = path.resolve(__dirname, '../../src/findings/pages');
const REST = readFileSync(path.join(__dirname, 'example-plan.lotplan.yaml'), 'utf8');

/** An example, and a file of readings that stands beside it. */
const EXAMPLE = /^```yaml\n([\s\S]*?)^```(?:\n+```csv\n([\s\S]*?)\n```)?/gm;
/** From here on an example holds the file beside it, as comments, so that it stays one text. */
const BESIDE = '# readings.csv beside the plan:\n';
/** Rows of the day before that come again on every day. */
const AND_SO_ON = /^# and so on every day to (\d{4}-\d{2}-\d{2})$/;

export interface Page {
  readonly code: string;
  readonly text: string;
  readonly headings: readonly string[];
  /** Example plans by heading. */
  readonly wrong: readonly string[];
  readonly right: readonly string[];
}

export function pageCodes(): string[] {
  return readdirSync(PAGES)
    .filter((name) => name.endsWith('.md'))
    .map((name) => name.slice(0, -3))
    .sort();
}

export function readPage(code: string): Page {
  const text = readFileSync(path.join(PAGES, `${code}.md`), 'utf8');
  const parts = text.split(/^## /m).slice(1);
  const examplesUnder = (heading: string) =>
    parts
      .filter((part) => part.startsWith(heading))
      .flatMap((part) => [...part.matchAll(EXAMPLE)])
      .map(([, yaml = '', csv]) =>
        csv === undefined ? yaml : `${yaml}${BESIDE}${csv.replace(/^/gm, '# ')}`,
      );
  return {
    code,
    text,
    headings: parts.map((part) => part.split('\n')[0]?.trim() ?? ''),
    wrong: examplesUnder('Wrong'),
    right: examplesUnder('Right'),
  };
}

/** The slips that a page shows by a line each, as a lot that has it, and as one that has it right. */
export function slipsOn({ text }: Page): readonly { readonly wrong: string; readonly right: string }[] {
  const lotWith = (line = '') =>
    `lots:\n  L1:\n    variety: Gala\n    picked: 2026-09-05..2026-09-10\n${line
      .replaceAll('[TAB]', '\t')
      .replaceAll('[U+00A0]', '\u00a0')}\n    received: 140\n`;
  return [...text.matchAll(/^wrong \|(.*)\nright \|(.*)$/gm)].map(([, wrong, right]) => ({
    wrong: lotWith(wrong),
    right: lotWith(right),
  }));
}

/** The season of an example in the same plan, with its rooms' courses. */
export function seasonOfExample(example: string): ComputedSeason {
  const files = [{ path: 'example.lotplan.yaml', text: example }];
  if (!example.startsWith('# the whole plan'))
    files.push({ path: 'rest.lotplan.yaml', text: restAround(example) });
  return computeSeason(readPlan(files), { courses: true });
}

/** Findings on an example, standing in a plan that is otherwise in order, unless it says that it is a whole plan. */
export function findingsOnExample(example: string): Finding[] {
  const season = seasonOfExample(example);
  return findingsOf({ ...season, readings: readingsBeside(season, example) });
}

/** What an example's file of readings comes to; undefined where it names none, and missing where it has none. */
function readingsBeside(season: ComputedSeason, example: string): ComputedSeason['readings'] {
  const layout = season.plan.readings.values().next().value;
  if (!layout) return undefined;
  const known = { readings: layout.id, file: 'readings.csv' };
  const start = example.indexOf(BESIDE);
  if (start < 0)
    return seenReadings(
      [{ ...known, rooms: new Map(), notTaken: 0, faults: [], isMissing: true }],
      new Map(),
      new Map(),
    );
  const lines = example.slice(start + BESIDE.length).split('\n');
  const csv = lines.flatMap((line) => (line.startsWith('# ') ? [line.slice(2)] : []));
  const read = readReadings(allRows(csv).join('\n'), layout, new Set(season.plan.rooms.keys()));
  const expected = expectedOf(season);
  const records = [...read.rooms].map(
    ([room, readings]) => [room, recordMore(expected.get(room) ?? [], undefined, readings)] as const,
  );
  return seenReadings([{ ...known, ...read, isMissing: false }], expected, new Map(records));
}

/** The rows with those that come again written out. */
function allRows(csv: readonly string[]): string[] {
  const rows: string[] = [];
  for (const line of csv) {
    const until = parseDay(AND_SO_ON.exec(line)?.[1] ?? '');
    const last = rows.at(-1)?.slice(0, 10) ?? '';
    const of = rows.filter((row) => row.startsWith(last));
    if (until === undefined) rows.push(line);
    else
      for (let day = (parseDay(last) ?? until) + 1; day <= until; day += 1)
        rows.push(...of.map((row) => formatDay(day) + row.slice(10)));
  }
  return rows;
}

/** The rest of the plan without what the example defines itself. */
function restAround(example: string): string {
  const own = parseDocument(example, { logLevel: 'error', uniqueKeys: false });
  const rest = parseDocument(REST);
  if (own.errors.length > 0) return REST;
  const sections: unknown = own.toJS();
  if (typeof sections !== 'object' || sections === null) return REST;
  for (const [section, entries] of Object.entries(sections)) {
    for (const path of pathsOf(section, entries)) if (rest.hasIn(path)) rest.deleteIn(path);
  }
  return rest.toString();
}

/** What an example's section takes the place of: its own entries, or the whole section where it is written empty. */
function pathsOf(section: string, entries: unknown): string[][] {
  const once = ['season', 'packing', 'policy', 'lotwright'].includes(section);
  if (once || typeof entries !== 'object' || entries === null) return [[section]];
  if (Object.keys(entries).length === 0) return [[section]];
  if (section !== 'plant') return Object.keys(entries).map((id) => [section, id]);
  return Object.entries(entries).flatMap(([kind, machines]) =>
    Object.keys(machines ?? {}).map((id) => [section, kind, id]),
  );
}

/** The room of the plan around the examples, behind a cooler of this size and with these keys beside. */
export function roomOfExamples({ cooler = '45 kW', beside = '' }): string {
  return `rooms:
  R1:
    inside: { length: 13.1 m, width: 5.9 m, height: 5.8 m }
    bin-type: plastic-1200
    refrigeration: { capacity: ${cooler}, group: engine-room }
    tightness: { from: 250 Pa, to: 125 Pa, after: 32 min }
    scrubber: S1
    nitrogen: N1
${beside === '' ? '' : `    ${beside}\n`}`;
}
