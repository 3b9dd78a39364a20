import fs from 'node:fs';
import path from 'node:path';
import type { Failure, FileAccess, FolderEntry, Resources } from './io';
import { type Disk, JOURNAL, restore, WriteFailed, writeAll } from './write-all';

/** The one place of the command line that touches the file system. */
export const nodeFiles: FileAccess = {
  kindOf: (file) => (fs.existsSync(file) ? kindOf(fs.statSync(file)) : 'missing'),
  list: (folder) =>
    attempt(() => fs.readdirSync(folder).map((name) => ({ name, kind: entryKind(folder, name) }))),
  read: (file) => attempt(() => fs.readFileSync(file, 'utf8')),
  pieces: (file, from, each) => {
    const done = attempt(() => readPieces(file, from, each));
    return typeof done === 'string' ? undefined : done;
  },
  writeAll: (texts) => {
    const [first = ''] = texts.keys();
    try {
      const real = new Map([...texts].map(([file, text]) => [fs.realpathSync(file), text]));
      writeAll(nodeDisk, real, path.join(path.dirname(first), JOURNAL));
      return undefined;
    } catch (error) {
      if (!(error instanceof WriteFailed)) return { ...reasonOf(error), file: first, left: [] };
      return { ...reasonOf(error.cause), file: error.file, left: error.left };
    }
  },
  restore: (journal) => attempt(() => restore(nodeDisk, journal)),
  save: (file, content) => {
    const done = attempt(() => {
      if (fs.existsSync(file)) return replace(fs.realpathSync(file), content);
      fs.mkdirSync(path.dirname(file), { recursive: true });
      fs.writeFileSync(file, content, { flag: 'wx' });
      return file;
    });
    return typeof done === 'string' ? undefined : done;
  },
  realPath: (file) => fs.realpathSync(file),
};

const nodeDisk: Disk = {
  read: (file) => fs.readFileSync(file, 'utf8'),
  create: (file, text, like) => {
    const mode = like === undefined ? undefined : fs.statSync(like).mode;
    const handle = fs.openSync(file, 'wx', mode);
    try {
      fs.writeFileSync(handle, text);
      fs.fsyncSync(handle);
    } catch (error) {
      fs.rmSync(file, { force: true });
      throw error;
    } finally {
      fs.closeSync(handle);
    }
  },
  rename: (from, to) => fs.renameSync(from, to),
  remove: (file) => fs.rmSync(file, { force: true }),
};

const PIECE_BYTES = 1 << 20;

function readPieces(file: string, from: number, each: (piece: Uint8Array) => void): string {
  const opened = fs.openSync(file, 'r');
  try {
    const buffer = Buffer.alloc(PIECE_BYTES);
    let at = from;
    for (;;) {
      const read = fs.readSync(opened, buffer, 0, PIECE_BYTES, at);
      if (read === 0) return file;
      each(buffer.subarray(0, read));
      at += read;
    }
  } finally {
    fs.closeSync(opened);
  }
}

/** Beside the file first, with its permissions, so that whatever goes wrong one of the two texts is whole. */
function replace(file: string, text: string | Uint8Array): string {
  const beside = `${file}.new`;
  try {
    fs.writeFileSync(beside, text, { mode: fs.statSync(file).mode, flag: 'wx' });
    fs.renameSync(beside, file);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') fs.rmSync(beside, { force: true });
    throw error;
  }
  return file;
}

const SCHEMA_ENDING = '.schema.json';

/** Schemas and findings' pages from the folders they are published in. */
export function nodeResources(schemas: string, pages: string): Resources {
  const read = (folder: string, name: string): string | undefined => {
    const text = attempt(() => fs.readFileSync(path.join(folder, name), 'utf8'));
    return typeof text === 'string' ? text : undefined;
  };
  return {
    get schemaNames() {
      const names = attempt(() => fs.readdirSync(schemas));
      return 'failure' in names
        ? []
        : names
            .filter((name) => name.endsWith(SCHEMA_ENDING))
            .map((name) => name.slice(0, -SCHEMA_ENDING.length))
            .sort();
    },
    schema: (name) => (/^[a-z-]+$/.test(name) ? read(schemas, name + SCHEMA_ENDING) : undefined),
    page: (code) => (/^[a-z0-9-]+$/.test(code) ? read(pages, `${code}.md`) : undefined),
  };
}

/** A link counts as what it leads to; one that leads nowhere is neither file nor folder. */
function entryKind(folder: string, name: string): FolderEntry['kind'] {
  const stats = attempt(() => fs.statSync(path.join(folder, name)));
  return 'failure' in stats ? 'other' : kindOf(stats);
}

function kindOf(stats: fs.Stats): FolderEntry['kind'] {
  if (stats.isDirectory()) return 'folder';
  return stats.isFile() ? 'file' : 'other';
}

const REASONS: Readonly<Record<string, string>> = {
  EACCES: 'no permission',
  EPERM: 'no permission',
  EROFS: 'its disk cannot be written to',
  ENOSPC: 'its disk is full',
  EEXIST: 'a file of its name with .new behind it stands beside it',
  ENOENT: 'there is no such file',
  EISDIR: 'it is a folder',
  ELOOP: 'its links lead in a circle',
  ERR_STRING_TOO_LONG: 'it is too large',
};

function attempt<T>(read: () => T): T | Failure {
  try {
    return read();
  } catch (error) {
    return reasonOf(error);
  }
}

function reasonOf(error: unknown): Failure {
  const { code, message } = error as NodeJS.ErrnoException;
  return { failure: REASONS[code ?? ''] ?? message };
}
