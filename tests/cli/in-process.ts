import path from 'node:path';
import { nodeFiles, nodeResources } from '../../src/cli/files';
import { gitIn } from '../../src/cli/git';
import type { FileAccess, FolderEntry, Io, Solve } from '../../src/cli/io';
import { runProgram } from '../../src/cli/program';
import { parseDay } from '../../src/plan/dates';
import { highsForNode } from '../../src/release/highs-node';
import { quickRelease } from '../../src/release/quick';
import { noPaint, type Paint } from '../../src/report/paint';

export const root = path.resolve(__dirname, '../..');

/** Solves at once and in process; the worker has tests of its own. */
export const solveHere: Solve = async (problem, { seed }, onProgress) => {
  onProgress({ stage: 'searching', share: 0.5, value: 100, bound: 110 });
  return quickRelease(problem, { seed, moves: 4000 });
};

export interface Given {
  readonly files?: FileAccess;
  readonly cwd?: string;
  readonly paint?: Paint;
  readonly terminal?: boolean;
  readonly solve?: Solve;
  readonly onInterrupt?: Io['onInterrupt'];
}

export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** Runs a command line in process, by default in the repository's folder, on Monday 1 March 2027. */
export async function lotwright(words: readonly string[], given: Given = {}): Promise<Ran> {
  let [out, err] = ['', ''];
  const io: Io = {
    out: {
      isTerminal: given.terminal ?? false,
      write: (text) => {
        out += text;
      },
    },
    err: {
      isTerminal: given.terminal ?? false,
      write: (text) => {
        err += text;
      },
    },
    files: given.files ?? nodeFiles,
    resources: nodeResources(path.join(root, 'schemas'), path.join(root, 'src/findings/pages')),
    cwd: given.cwd ?? root,
    today: parseDay('2027-03-01') ?? 0,
    paint: given.paint ?? noPaint,
    version: '9.8.7',
    solve: given.solve ?? solveHere,
    git: gitIn(given.cwd ?? root),
    loadSolver: highsForNode(),
    onInterrupt: given.onInterrupt ?? (() => () => {}),
  };
  const code = await runProgram(words, io);
  return { code, out, err };
}

/** Files that exist only in a test. Text under a path is a file, `null` is one that may not be read. */
export function inMemory(files: Readonly<Record<string, string | null>>): FileAccess {
  const texts: Record<string, string | null> = { ...files };
  const paths = Object.keys(files);
  const kindOf = (at: string): FolderEntry['kind'] | 'missing' => {
    if (at in texts) return 'file';
    return paths.some((file) => file.startsWith(`${at === '/' ? '' : at}/`)) ? 'folder' : 'missing';
  };
  return {
    kindOf,
    list: (folder) => {
      const inside = paths.filter((file) => file.startsWith(`${folder}/`));
      const names = new Set(inside.map((file) => file.slice(folder.length + 1).split('/')[0] ?? ''));
      return [...names].map((name) => ({
        name,
        kind: kindOf(`${folder}/${name}`) === 'file' ? 'file' : 'folder',
      }));
    },
    read: (file) => texts[file] ?? { failure: 'no permission to read it' },
    writeAll: (written) => {
      for (const [file, text] of written) texts[file] = text;
      return undefined;
    },
    restore: () => ({ failure: 'not here' }),
    save: (file, content) => {
      if (!(file in texts)) paths.push(file);
      texts[file] = typeof content === 'string' ? content : Buffer.from(content).toString('latin1');
      return undefined;
    },
    realPath: (at) => at,
  };
}
