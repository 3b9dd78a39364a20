import { STEP } from '../indent-step';
import type { Problem } from '../problem';
import { deepEntry } from './misplaced';
import type { Node } from './nodes';
import { quickParse } from './quick-parse';
import { Lines } from './split-lines';

/**
 * A chunk whose first key stands deeper than those behind it, read as if it stood beside them. Undefined where that does
 * not give a text that can be read, or where it is the others that stand at no usual depth.
 */
export function withDeepFirstKey(text: string): { root: Node; problem: Problem } | undefined {
  const lines = new Lines(text);
  const key = lines.contentFrom(0);
  const first = lines.contentFrom(key + 1);
  if (first >= lines.count) return undefined;
  const [above, own] = [lines.indentOf(key), lines.indentOf(first)];
  const second = lines.contentFrom(first + 1, own - 1);
  const indent = second < lines.count ? lines.indentOf(second) : own;
  const step = indent - above;
  if (own - above === STEP || indent >= own || (step !== STEP && step !== 2 * STEP)) return undefined;
  const problem = deepEntry({ file: '', text, lines }, { first, key: first, last: second }, indent, step);
  const starts = problem.fixes?.[0]?.edits.map(({ at }) => at.start) ?? [];
  const root = starts.length > 0 ? quickParse(movedLeft(text, starts, own - indent)) : undefined;
  return root && { root, problem };
}

/** Lines begin further left, and all that is written stays at its place: the blanks go to the end of the line above. */
function movedLeft(text: string, starts: readonly number[], by: number): string {
  let moved = '';
  let done = 0;
  for (const start of starts) {
    const above = text.slice(done, start);
    const end = above.endsWith('\r\n') ? '\r\n' : '\n';
    moved += above.slice(0, above.length - end.length) + ' '.repeat(by) + end;
    done = start + by;
  }
  return moved + text.slice(done);
}
