import { mergeFiles } from './merge';
import type { Plan } from './model';
import { type FileReading, readFile } from './text/read-file';

/** A plan file: its path, as it is to stand in findings, and its text. */
export interface PlanFile {
  readonly path: string;
  readonly text: string;
}

/**
 * What the last reading of a plan left for the next. Whoever reads the same plan again and again keeps one for it;
 * it holds what the last reading used and no more, so it never outgrows the plan.
 */
export interface PlanCache {
  files: ReadonlyMap<string, FileReading>;
}

export function emptyPlanCache(): PlanCache {
  return { files: new Map() };
}

/**
 * Reads a plan from the texts of its files. Never throws: whatever a file holds, the rest of the plan is read, and
 * what is wrong is in `problems` at its place. The files' order does not matter: they are taken by path. With a cache
 * only the parts that have changed since its last use are read again; the plan is the same as without. Entries that
 * have not changed are the very same objects as in the last plan, and their spans move to where they stand now.
 */
export function readPlan(files: readonly PlanFile[], cache?: PlanCache): Plan {
  const sorted = [...files].sort((a, b) => (a.path < b.path ? -1 : a.path > b.path ? 1 : 0));
  const readings = new Map<string, FileReading>();
  for (const { path, text } of sorted)
    if (!readings.has(path))
      readings.set(path, readFile(path, text, cache?.files.get(path), cache !== undefined));
  if (cache) cache.files = readings;
  return mergeFiles([...readings.values()]);
}
