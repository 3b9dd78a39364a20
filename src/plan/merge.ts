import type { BuiltItem, ItemTypes } from './build/build-item';
import { readPolicy } from './build/market';
import { type EntrySection, isSingleSection, itemName, type SingleSection } from './check/item-kinds';
import { lineEndingOf } from './lines';
import type { Plan, Policy } from './model';
import type { Problem } from './problem';
import { MOST_PROBLEMS, ProblemSink } from './problem-sink';
import { LANGUAGE_VERSION } from './schema/language-version';
import type { Span } from './span';
import type { FileReading } from './text/kept-reading';
import { problemsOf, versionOf } from './text/read-file';
import { quoted } from './text/say';

type EntryMaps = { readonly [K in EntrySection]: Map<string, ItemTypes[K]> };

/** A plan with what it was made of. */
export interface MergedPlan {
  readonly plan: Plan;
  /** In the order of their paths. */
  readonly readings: readonly FileReading[];
  /** The problems of each file. */
  readonly problems: readonly (readonly Problem[])[];
  /** Whether nothing stands twice in it. */
  readonly isSingle: boolean;
}

/** One plan from its files, in the order of their paths. */
export function mergeFiles(readings: readonly FileReading[]): MergedPlan {
  const merged = mergeItems(readings);
  const { entries, single } = merged;
  const problems = readings.map((reading) => fileProblems(reading, merged.twice.get(reading.file.path)));
  const isSingle = [...merged.twice.values()].every((sink) => sink.problems.length + sink.unsaid === 0);
  const chunks = readings.flatMap((reading) => reading.chunks);
  const plan: Plan = {
    files: new Map(readings.map(({ file }) => [file.path, file])),
    season: single.season,
    binTypes: entries.bins,
    rooms: entries.rooms,
    scrubbers: entries.scrubbers,
    nitrogenSources: entries.nitrogen,
    refrigerationGroups: entries.refrigeration,
    varieties: entries.varieties,
    regimes: entries.regimes,
    lots: entries.lots,
    fills: entries.fills,
    demand: entries.demand,
    expectations: entries.expect,
    scenarios: entries.scenarios,
    tables: entries.tables,
    readings: entries.readings,
    progress: entries.progress,
    samples: entries.samples,
    packed: entries.packed,
    sales: entries.sales,
    packing: single.packing,
    policy: single.policy ?? USUAL_POLICY,
    references: joined(chunks, ({ placed }) => placed.references),
    allowances: joined(chunks, ({ placed }) => placed.allowances),
    problems: planProblems(problems, readings),
  };
  return { plan, readings, problems, isSingle };
}

/** `flatMap` without an array for each: there are thousands. */
function joined<C, T>(all: readonly C[], of: (one: C) => readonly T[]): T[] {
  const parts: T[] = [];
  for (let at = 0; at < all.length; at++) {
    const own = of(all[at] as C);
    for (let index = 0; index < own.length; index++) parts.push(own[index] as T);
  }
  return parts;
}

/** What is wrong in a file, in the order of its places. `twice` is what stands in it the second time. */
export function fileProblems(reading: FileReading, twice: ProblemSink | undefined): readonly Problem[] {
  const { told, unsaid } = problemsOf(reading);
  const own = [...told, ...(twice?.problems ?? []), ...versionProblems(reading)];
  return capped(reading.file.path, own.sort(byPlace), unsaid + (twice?.unsaid ?? 0));
}

export function planProblems(
  ofFiles: readonly (readonly Problem[])[],
  readings: readonly FileReading[],
): readonly Problem[] {
  return [...ofFiles.flat(), ...versionMissing(readings)];
}

/** One for all plans without a policy, so that what follows from it need not be computed anew. */
const USUAL_POLICY: Policy = { at: undefined, places: undefined, ...readPolicy(undefined) };

interface Merged {
  readonly entries: EntryMaps;
  readonly single: { readonly [K in SingleSection]?: ItemTypes[K] };
  /** What stands twice, by the file where it stands the second time. */
  readonly twice: ReadonlyMap<string, ProblemSink>;
}

/** Puts entries under their identifiers; of two with the same one, the first counts. */
function mergeItems(readings: readonly FileReading[]): Merged {
  const entries: EntryMaps = {
    bins: new Map(),
    rooms: new Map(),
    scrubbers: new Map(),
    nitrogen: new Map(),
    refrigeration: new Map(),
    varieties: new Map(),
    regimes: new Map(),
    lots: new Map(),
    fills: new Map(),
    demand: new Map(),
    expect: new Map(),
    scenarios: new Map(),
    tables: new Map(),
    readings: new Map(),
    progress: new Map(),
    samples: new Map(),
    packed: new Map(),
    sales: new Map(),
  };
  const single: { [K in SingleSection]?: ItemTypes[K] } = {};
  const sinks = new Map<string, ProblemSink>();
  for (const { file, chunks } of readings) {
    const sink = new ProblemSink(MOST_PROBLEMS);
    sinks.set(file.path, sink);
    for (let at = 0; at < chunks.length; at++) {
      const items = chunks[at]?.placed.items ?? [];
      for (let index = 0; index < items.length; index++) merge(items[index] as BuiltItem, sink);
    }
  }
  return { entries, single, twice: sinks };

  function merge(item: BuiltItem, sink: ProblemSink): void {
    const { kind, value } = item;
    const first = isSingleSection(kind) ? single[kind] : entries[kind].get(value.id);
    if (first) sink.add(() => twice(item, first.at));
    else if (isSingleSection(kind)) Object.assign(single, { [kind]: value });
    else (entries[kind] as Map<string, unknown>).set(value.id, value);
  }
}

function twice({ kind, value }: BuiltItem, first: Span | undefined): Problem {
  const at = value.at ?? first;
  const message = isSingleSection(kind)
    ? `\`${kind}\` stands twice in this plan; the first counts. Keep one of them.`
    : `There are two of the ${itemName(kind)} ${quoted(value.id)}; the first counts. Rename or delete one of them.`;
  return {
    code: 'duplicate-identifier',
    message,
    at: at as Span,
    related: first ? [{ at: first, message: 'The first one' }] : [],
    about: isSingleSection(kind) ? kind : `${kind}/${value.id}`.slice(0, 120),
  };
}

function versionProblems(reading: FileReading): Problem[] {
  const version = versionOf(reading);
  if (!version || version.value === LANGUAGE_VERSION) return [];
  const message =
    version.raw === ''
      ? `\`lotwright\` needs the version of the plan language. Write \`lotwright: ${LANGUAGE_VERSION}\`.`
      : `This program reads version ${LANGUAGE_VERSION} of the plan language, not ${quoted(version.raw)}. Update the program, or write \`lotwright: ${LANGUAGE_VERSION}\`.`;
  return [
    {
      code: 'language-version',
      message,
      at: version.at,
      about: 'lotwright',
    },
  ];
}

function versionMissing(readings: readonly FileReading[]): Problem[] {
  const read = readings.filter(({ isRead }) => isRead);
  const [first] = read;
  if (!first || read.some((reading) => versionOf(reading))) return [];
  const { path: file, text } = first.file;
  const start = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const line = `lotwright: ${LANGUAGE_VERSION}`;
  return [
    {
      code: 'language-version-missing',
      message: `The plan does not say which version of the plan language it is written in. Write \`${line}\` at the top of a file.`,
      at: { file, start, end: start },
      about: 'lotwright',
      fixes: [
        {
          title: `Add \`${line}\``,
          edits: [{ at: { file, start, end: start }, newText: `${line}${lineEndingOf(text)}` }],
        },
      ],
    },
  ];
}

function byPlace(a: Problem, b: Problem): number {
  // A merge conflict explains the rest of what is wrong in its file.
  const rank = (problem: Problem) => (problem.code === 'merge-conflict' ? 0 : 1);
  return rank(a) - rank(b) || a.at.start - b.at.start || a.at.end - b.at.end;
}

/** The first problems of a file, and how many more there are. */
function capped(file: string, problems: readonly Problem[], unsaid: number): readonly Problem[] {
  const more = Math.max(0, problems.length - MOST_PROBLEMS) + unsaid;
  if (more === 0) return problems;
  const kept = problems.slice(0, MOST_PROBLEMS);
  const last = kept.at(-1)?.at ?? { file, start: 0, end: 0 };
  return [
    ...kept,
    {
      code: 'too-many-problems',
      message: `${more} more ${more === 1 ? 'problem' : 'problems'} in this file are not shown. Correct these first; often a few causes make many.`,
      at: last,
      about: 'file',
    },
  ];
}
