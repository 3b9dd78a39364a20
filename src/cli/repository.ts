import path from 'node:path';
import type { Io } from './io';

/**
 * How paths are written that a forge reads: from the root of the repository that holds the folder, which is the first
 * folder upwards with a `.git` (a file where it is a submodule or a second working tree), or from `from` where the
 * planner names a folder. Without either, from the current folder.
 */
export function repositoryPath(io: Io, folder: string | undefined, from: string | undefined) {
  const start = path.resolve(io.cwd, folder ?? '.');
  const root = from === undefined ? (rootAbove(io, start) ?? io.cwd) : path.resolve(io.cwd, from);
  return (file: string) => path.relative(root, path.resolve(io.cwd, file)).split(path.sep).join('/');
}

function rootAbove(io: Io, start: string): string | undefined {
  for (let folder = start; ; folder = path.dirname(folder)) {
    if (io.files.kindOf(path.join(folder, '.git')) !== 'missing') return folder;
    if (path.dirname(folder) === folder) return undefined;
  }
}
