import { readdir, readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import type { Disk } from './host';
import { KIND, type Listed } from './walked-files';

/** The disk of the machine that the extension runs on. */
export const nodeDisk: Disk = {
  list: async (folder) => {
    const entries = await readdir(folder, { withFileTypes: true });
    return Promise.all(
      entries.map(async (entry): Promise<Listed> => {
        if (!entry.isSymbolicLink()) return [entry.name, kindOf(entry)];
        const leadsTo = await stat(path.join(folder, entry.name)).catch(() => undefined);
        return [entry.name, KIND.link | (leadsTo ? kindOf(leadsTo) : 0)];
      }),
    );
  },
  read: (file) => readFile(file),
};

function kindOf(entry: { isFile(): boolean; isDirectory(): boolean }): number {
  if (entry.isDirectory()) return KIND.folder;
  return entry.isFile() ? KIND.file : 0;
}
