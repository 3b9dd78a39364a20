import path from 'node:path';
import type { FileAccess, Io } from '../io';
import { runProgram } from '../program';
import type { Asked } from './tools';

export interface Answer {
  readonly text: string;
  readonly failed: boolean;
}

/** Longer answers help nobody: the end is cut off and said to be. UTF-16 code units. */
const MOST_TEXT = 60_000;

/** Answers a question about the plan in a folder by the command line's own commands. Never writes. */
export async function answer(io: Io, folder: string, { words, changes }: Asked): Promise<Answer> {
  const changed = withChanges(io.files, path.resolve(io.cwd, folder), changes);
  if ('refused' in changed) return { text: changed.refused, failed: true };
  let [out, err] = ['', ''];
  const quiet: Io = {
    ...io,
    files: changed,
    out: {
      isTerminal: false,
      write: (text) => {
        out += text;
      },
    },
    err: {
      isTerminal: false,
      write: (text) => {
        err += text;
      },
    },
  };
  // `explain` takes the figure first: the folder goes behind the words, before the options.
  const at = words.findIndex((word) => word.startsWith('--'));
  const [before, options] = at < 0 ? [words, []] : [words.slice(0, at), words.slice(at)];
  const code = await runProgram([...before, folder, ...options], quiet);
  const text = out === '' ? err : out;
  return { text: cut(text.trimEnd()), failed: code === 2 };
}

/** The files as they are, but for the changes; nothing can be written. */
function withChanges(
  files: FileAccess,
  root: string,
  changes: Asked['changes'],
): FileAccess | { readonly refused: string } {
  const texts = new Map<string, string>();
  for (const { file, old, new: by } of changes) {
    const full = path.resolve(root, file);
    if (path.relative(root, full).startsWith('..'))
      return { refused: `${file} lies outside the plan. Name a file of the plan.` };
    const text = texts.get(full) ?? files.read(full);
    if (typeof text !== 'string') return { refused: `${file} could not be read: ${text.failure}.` };
    const first = text.indexOf(old);
    if (first < 0) return { refused: `${file} does not hold this text: ${old}` };
    if (text.indexOf(old, first + 1) >= 0)
      return { refused: `${file} holds this text more than once; give more of it: ${old}` };
    texts.set(full, text.slice(0, first) + by + text.slice(first + old.length));
  }
  return {
    ...files,
    read: (file) => texts.get(path.resolve(file)) ?? files.read(file),
    write: () => ({ failure: 'questions never write' }),
  };
}

function cut(text: string): string {
  if (text.length <= MOST_TEXT) return text;
  return `${text.slice(0, MOST_TEXT)}\n[cut off: ${text.length - MOST_TEXT} characters more. Ask for one room, or for text in place of JSON.]`;
}
