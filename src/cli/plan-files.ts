import path from 'node:path';
import { withoutMark } from '../plan/byte-order-mark';
import { asOf } from '../plan/known';
import type { Plan } from '../plan/model';
import { readPlan } from '../plan/read';
import { toldIn } from '../plan/told-units';
import { counted } from '../plan/wording';
import { CannotRun, type Io } from './io';
import type { PlanOptions } from './options';
import { JOURNAL } from './write-all';

export const PLAN_FILE_ENDING = '.lotplan.yaml';

/**
 * Reads the plan in a folder, as it was known on a day where one is given, to be told in the units asked for. Throws `CannotRun` where there is none or a file cannot be
 * read.
 */
export function openPlan(
  io: Io,
  folder: string | undefined,
  { asOf: known, units }: Pick<Partial<PlanOptions>, 'asOf' | 'units'> = {},
): Plan {
  const root = path.resolve(io.cwd, folder ?? '.');
  const shown = relative(io, root);
  const kind = io.files.kindOf(root);
  if (kind === 'missing') throw new CannotRun(`There is no folder ${shown}.`);
  if (kind !== 'folder')
    throw new CannotRun(`${shown} is not a folder. A plan is a folder: give the one that holds the file.`);
  const { found, failures, journals } = findPlanFiles(io, root);
  for (const journal of journals) undoBrokenWrite(io, journal);
  const texts = found.map((file) => ({ file: relative(io, file), text: io.files.read(file) }));
  const files: { path: string; text: string }[] = [];
  for (const { file, text } of texts) {
    if (typeof text === 'string') files.push({ path: file, text: withoutMark(text) });
    else failures.push(`${file}: ${text.failure}`);
  }
  if (failures.length > 0) {
    throw new CannotRun(
      `${counted(failures.length, 'file or folder', 'files or folders')} could not be read:\n  ${failures.join('\n  ')}`,
    );
  }
  if (files.length === 0) {
    throw new CannotRun(
      `There is no plan in ${folder === undefined ? 'this folder' : shown}: no file in it or below it ends in ${PLAN_FILE_ENDING}. Give the plan's folder, as in: lotwright check plans/2026`,
    );
  }
  const plan = toldIn(readPlan(files), units);
  return known === undefined ? plan : asOf(plan, known);
}

/** Plan files in a folder and below it, in the order of their paths; dot-folders and node_modules are left out. */
export function findPlanFiles(
  io: Io,
  root: string,
): { found: string[]; failures: string[]; journals: string[] } {
  const found: string[] = [];
  const journals: string[] = [];
  const failures: string[] = [];
  const visited = new Set<string>();
  const visit = (folder: string): void => {
    const real = io.files.realPath(folder);
    if (visited.has(real)) return;
    visited.add(real);
    const entries = io.files.list(folder);
    if ('failure' in entries) {
      failures.push(`${relative(io, folder)}: ${entries.failure}`);
      return;
    }
    for (const { name, kind } of [...entries].sort((a, b) => (a.name < b.name ? -1 : 1))) {
      const full = path.join(folder, name);
      if (kind === 'folder' && !name.startsWith('.') && name !== 'node_modules') visit(full);
      if (kind === 'file' && name.endsWith(PLAN_FILE_ENDING)) found.push(full);
      if (kind === 'file' && name === JOURNAL) journals.push(full);
    }
  };
  visit(root);
  return { found, failures, journals };
}

/** A program that ended while it wrote left the plan between two states: it is put back as it was before. */
function undoBrokenWrite(io: Io, journal: string): void {
  const restored = io.files.restore(journal);
  const shown = (files: readonly string[]) => files.map((file) => relative(io, file)).join(', ');
  if ('failure' in restored)
    throw new CannotRun(
      `A write of this plan ended half way, and what it left cannot be undone: ${restored.failure}. The texts from before stand in ${relative(io, journal)}.`,
    );
  if (restored.changedSince.length > 0)
    throw new CannotRun(
      `A write of this plan ended half way, and ${shown(restored.changedSince)} was changed since. The texts from before stand in ${relative(io, journal)}: put the files right, then remove it.`,
    );
  io.err.write(
    `A write of this plan had ended half way. It is as it was before${restored.putBack.length > 0 ? `: put back ${shown(restored.putBack)}` : ''}.\n`,
  );
}

/** The path from the current folder, with forward slashes. */
function relative(io: Io, full: string): string {
  const shown = path.relative(io.cwd, full);
  return shown === '' ? '.' : shown.split(path.sep).join('/');
}
