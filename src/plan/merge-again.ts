import type { BuiltItem } from './build/build-item';
import { isSingleSection, type SingleSection } from './check/item-kinds';
import { fileProblems, type MergedPlan, planProblems } from './merge';
import type { Plan } from './model';
import { mapOfSection } from './sections';
import type { ChunkChange, FileReading, ReadChunk } from './text/kept-reading';

/**
 * The plan after changes to single entries and sections, each of which is still one of the same name in the same place:
 * what has not changed is taken from the last plan. Undefined where more has changed; then all files are merged.
 */
export function mergeAgain(
  last: MergedPlan,
  readings: readonly FileReading[],
  changes: ReadonlyMap<FileReading, ChunkChange>,
): MergedPlan | undefined {
  if (!last.isSingle || readings.length !== last.readings.length) return undefined;
  let merged = last;
  for (const [index, reading] of readings.entries()) {
    if (reading === last.readings[index]) continue;
    const change = changes.get(reading);
    if (!change || reading.file.path !== last.readings[index]?.file.path) return undefined;
    const next = mergedWith(merged, index, reading, change);
    if (!next) return undefined;
    merged = next;
  }
  return merged;
}

function mergedWith(
  last: MergedPlan,
  index: number,
  reading: FileReading,
  change: ChunkChange,
): MergedPlan | undefined {
  const entries = withItems(last.plan, itemsOf(change.before), itemsOf(change.after));
  if (!entries) return undefined;
  const readings = last.readings.with(index, reading);
  const ofFile = [...(last.readings[index]?.problems ?? []), ...reading.problems];
  const isTold = ofFile.length > 0 || [...change.before, ...change.after].some(mayTell);
  const problems = isTold ? last.problems.with(index, fileProblems(reading, undefined)) : last.problems;
  const list = <T>(all: readonly T[], of: (read: ReadChunk) => readonly T[]) =>
    spliced(all, of, readings, index, change);
  const plan: Plan = {
    ...last.plan,
    ...entries,
    files: new Map(last.plan.files).set(reading.file.path, reading.file),
    references: list(last.plan.references, ({ placed }) => placed.references),
    allowances: list(last.plan.allowances, ({ placed }) => placed.allowances),
    problems: isTold ? planProblems(problems, readings) : last.plan.problems,
  };
  return { plan, readings, problems, isSingle: true };
}

/** Whether problems may hang on a chunk: its own, and those of sections and versions. */
function mayTell({ placed }: ReadChunk): boolean {
  const { problems, unsaid, sections, version } = placed;
  return problems.length > 0 || unsaid > 0 || sections.length > 0 || version !== undefined;
}

function itemsOf(chunks: readonly ReadChunk[]): BuiltItem[] {
  return chunks.flatMap(({ placed }) => placed.items);
}

/** The plan's maps with entries replaced; undefined where they are not the same entries in the same order. */
function withItems(
  plan: Plan,
  before: readonly BuiltItem[],
  after: readonly BuiltItem[],
): Partial<Plan> | undefined {
  if (before.length !== after.length) return undefined;
  const maps: Record<string, Map<string, unknown>> = {};
  const singles: Partial<Record<SingleSection, unknown>> = {};
  for (const [index, { kind, value }] of after.entries()) {
    const old = before[index];
    if (!old || old.kind !== kind || old.value.id !== value.id) return undefined;
    if (isSingleSection(kind)) {
      singles[kind] = value;
      continue;
    }
    const name = mapOfSection[kind];
    let map = maps[name];
    if (!map) {
      map = new Map<string, unknown>(plan[name]);
      maps[name] = map;
    }
    map.set(value.id, value);
  }
  return { ...maps, ...singles } as Partial<Plan>;
}

/** A list with the parts of the changed chunks in their place. */
function spliced<T>(
  all: readonly T[],
  of: (read: ReadChunk) => readonly T[],
  readings: readonly FileReading[],
  file: number,
  { index, before, after }: ChunkChange,
): readonly T[] {
  const [old, now] = [before.flatMap(of), after.flatMap(of)];
  if (old.length === now.length && old.every((part, at) => part === now[at])) return all;
  let at = 0;
  for (let other = 0; other < file; other++)
    for (const chunk of readings[other]?.chunks ?? []) at += of(chunk).length;
  const chunks = readings[file]?.chunks ?? [];
  for (let chunk = 0; chunk < index; chunk++) {
    const read = chunks[chunk];
    if (read) at += of(read).length;
  }
  return all.slice(0, at).concat(now, all.slice(at + old.length));
}
