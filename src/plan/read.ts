import { type MergedPlan, mergeFiles } from './merge';
import { mergeAgain } from './merge-again';
import type { Plan } from './model';
import type { ChunkChange, FileReading } from './text/kept-reading';
import { readFile } from './text/read-file';
import type { TextView } from './text/text-view';

/** A plan file: its path, as it is to stand in findings, and its text. */
export interface PlanFile {
  readonly path: string;
  readonly text: string;
}

/** The same, whose text may be one that is being edited. */
export interface EditedFile {
  readonly path: string;
  readonly text: TextView;
}

/**
 * What the last reading of a plan left for the next. Whoever reads the same plan again and again keeps one for it;
 * it holds what the last reading used and no more, so it never outgrows the plan.
 */
export interface PlanCache {
  files: ReadonlyMap<string, FileReading>;
  merged: MergedPlan | undefined;
}

export function emptyPlanCache(): PlanCache {
  return { files: new Map(), merged: undefined };
}

/**
 * Reads a plan from the texts of its files. Never throws: whatever a file holds, the rest of the plan is read, and
 * what is wrong is in `problems` at its place. The files' order does not matter: they are taken by path. With a cache
 * only the parts that have changed since its last use are read again; the plan is the same as without. Entries that
 * have not changed are the very same objects as in the last plan, and their spans move to where they stand now.
 */
export function readPlan(files: readonly EditedFile[], cache?: PlanCache): Plan {
  const sorted = [...files].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const readings = new Map<string, FileReading>();
  const changes = new Map<FileReading, ChunkChange>();
  for (const { path, text } of sorted) {
    if (readings.has(path)) continue;
    const { reading, change } = readFile(path, text, cache?.files.get(path), cache !== undefined);
    readings.set(path, reading);
    if (change) changes.set(reading, change);
  }
  const all = [...readings.values()];
  const merged = (cache?.merged && mergeAgain(cache.merged, all, changes)) ?? mergeFiles(all);
  if (cache) Object.assign(cache, { files: readings, merged });
  return merged.plan;
}
