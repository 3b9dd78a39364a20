import type { Fix, Problem, TextEdit } from '../problem';
import type { Blank } from './blank';
import { linesOf } from './text-lines';

interface Range {
  readonly start: number;
  readonly end: number;
}

/** One unresolved merge: its marker lines, and the two versions between them. */
interface Conflict {
  readonly markers: Range[];
  readonly ours: Range[];
  /** The other version, and the common ancestor where the tool that merged wrote it. */
  readonly theirs: Range[];
  readonly base: Range[];
  closed: boolean;
}

/**
 * Finds the marks that a version control system leaves where two changes met. The first version is read; the other is
 * set aside. Where the closing mark is missing, only the marks are.
 */
export function readConflicts(file: string, text: string): { blanks: Blank[]; problems: Problem[] } {
  if (!text.includes('<<<<<<<')) return { blanks: [], problems: [] };
  const conflicts = conflictsIn(text);
  const first = conflicts[0]?.markers[0];
  if (!first) return { blanks: [], problems: [] };
  const aside = conflicts.flatMap(({ closed, markers, theirs, base }) =>
    closed ? [...markers, ...theirs, ...base] : markers,
  );
  const count = conflicts.length === 1 ? 'A merge conflict is' : `${conflicts.length} merge conflicts are`;
  const problem: Problem = {
    code: 'merge-conflict',
    message: `${count} not resolved in this file, the first here. Choose what shall stand and delete the marks; until then the first version is read.`,
    at: { file, start: first.start, end: first.start + 7 },
    about: 'merge-conflict',
    fixes: conflicts.every(({ closed }) => closed)
      ? [
          keep(file, 'Keep the first version', conflicts, ({ theirs }) => theirs),
          keep(file, 'Keep the second version', conflicts, ({ ours }) => ours),
        ]
      : [],
  };
  return { blanks: aside.map((range) => ({ ...range, with: ' ' })), problems: [problem] };
}

function keep(
  file: string,
  title: string,
  conflicts: readonly Conflict[],
  dropped: (conflict: Conflict) => readonly Range[],
): Fix {
  const edits = conflicts
    .flatMap((conflict) => [...conflict.markers, ...conflict.base, ...dropped(conflict)])
    .sort((a, b) => a.start - b.start)
    .map((range): TextEdit => ({ at: { file, ...range }, newText: '' }));
  return { title: conflicts.length > 1 ? `${title} in all conflicts of this file` : title, edits };
}

function conflictsIn(text: string): Conflict[] {
  const found: Conflict[] = [];
  let open: Conflict | undefined;
  let side: 'ours' | 'base' | 'theirs' = 'ours';
  for (const { start, end, next } of linesOf(text)) {
    const mark = markOf(text, start, end);
    const range = { start, end: next };
    if (mark === '<' && !open) {
      open = { markers: [range], ours: [], theirs: [], base: [], closed: false };
      found.push(open);
      side = 'ours';
    } else if (open && mark !== undefined && mark !== '<') {
      open.markers.push(range);
      if (mark === '>') {
        open.closed = true;
        open = undefined;
      } else side = mark === '|' ? 'base' : 'theirs';
    } else if (open) open[side].push(range);
  }
  return found;
}

function markOf(text: string, start: number, end: number): '<' | '|' | '=' | '>' | undefined {
  const sign = text[start];
  if (sign !== '<' && sign !== '|' && sign !== '=' && sign !== '>') return undefined;
  if (!text.startsWith(sign.repeat(7), start)) return undefined;
  return start + 7 === end || text[start + 7] === ' ' ? sign : undefined;
}
