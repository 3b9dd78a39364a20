import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { parseDocument } from 'yaml';
import { computeSeason } from '../../src/findings/compute';
import { findingsOf } from '../../src/findings/find';
import type { Finding } from '../../src/findings/types';
import { readPlan } from '../../src/plan/read';

const PAGES = path.resolve(__dirname, '../../src/findings/pages');
const REST = readFileSync(path.join(__dirname, 'example-plan.lotplan.yaml'), 'utf8');

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
      .flatMap((part) => [...part.matchAll(/^```yaml\n([\s\S]*?)^```/gm)].map((match) => match[1] ?? ''));
  return {
    code,
    text,
    headings: parts.map((part) => part.split('\n')[0]?.trim() ?? ''),
    wrong: examplesUnder('Wrong'),
    right: examplesUnder('Right'),
  };
}

/** Findings on an example, standing in a plan that is otherwise in order, unless it says that it is a whole plan. */
export function findingsOnExample(example: string): Finding[] {
  const files = [{ path: 'example.lotplan.yaml', text: example }];
  if (!example.startsWith('# the whole plan'))
    files.push({ path: 'rest.lotplan.yaml', text: restAround(example) });
  const plan = readPlan(files);
  return findingsOf(computeSeason(plan, { courses: true }));
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
