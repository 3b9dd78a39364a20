import fs from 'node:fs';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { promisify } from 'node:util';
import { withoutMark } from '../plan/byte-order-mark';
import type { FileSource } from './file-source';
import { isPlanFile } from './plan-roots';
import { grownText } from './protocol-grown';

// Node's own promises of them take as long to load as ten files to read.
const readFile = promisify(fs.readFile);
const readdir = promisify(fs.readdir);

/** Plan files on this machine's disk, for editors that leave reading to the server. */
export const diskFiles: FileSource = {
  find: async (folder) => (folder.startsWith('file:') ? planFilesBelow(fileURLToPath(folder)) : []),
  read: (uris) => Promise.all(uris.map(readOrNull)),
  grown: async (uri, known) => {
    try {
      return grownText(await readFile(fileURLToPath(uri)), known);
    } catch {
      return null;
    }
  },
};

async function planFilesBelow(folder: string): Promise<string[]> {
  const found: string[] = [];
  for (const entry of await readdir(folder, { withFileTypes: true }).catch(() => [])) {
    const full = path.join(folder, entry.name);
    if (entry.isFile() && isPlanFile(entry.name)) found.push(pathToFileURL(full).href);
    // Links are not followed: they can lead in circles.
    if (entry.isDirectory() && entry.name !== 'node_modules' && !entry.name.startsWith('.'))
      found.push(...(await planFilesBelow(full)));
  }
  return found;
}

async function readOrNull(uri: string): Promise<string | null> {
  try {
    return withoutMark(await readFile(fileURLToPath(uri), 'utf8'));
  } catch {
    return null;
  }
}
