import { STEP } from '../indent-step';
import type { Fix, Problem, TextEdit } from '../problem';
import { countBelow } from './changed-lines';
import type { Chunk } from './split';

/** A line that something deeper follows: a key alone, or an open bracket. */
const OPENS = /[:{[][ \t]*(?:[ \t]#.*)?$/;
const DASH = /^-(?:[ \t]|$)/;

interface Line {
  readonly start: number;
  /** Spaces and tabs as written. */
  readonly lead: string;
  readonly content: string;
}

/** A line above, with the depth at which it stands once all is indented with spaces. */
interface Above {
  readonly line: Line;
  readonly depth: number;
}

/** The fix for a text's tabs: each line that has one before its content is indented as its neighbours ask for. */
export function indentWithSpaces(file: string, text: string): Fix[] {
  const lines = linesOf(text);
  const nextOf = nextContents(lines);
  const edits: TextEdit[] = [];
  /** The last lines of all depths that are open, each deeper than the one before. */
  let open: Above[] = [];
  lines.forEach((line, index) => {
    const { start, lead, content } = line;
    const hasTab = lead.includes('\t');
    const depth = hasTab ? depthOf(line, open, nextOf[index]) : lead.length;
    const at = { file, start, end: start + lead.length };
    if (hasTab) edits.push({ at, newText: ' '.repeat(content === '' ? 0 : depth) });
    if (!isContent(line)) return;
    open = [...open.filter((above) => above.depth < depth), { line, depth }];
  });
  return edits.length === 0 ? [] : [{ title: 'Indent this file with spaces', edits }];
}

/**
 * The depth that is meant by a line with a tab: deeper than a line that opens something; else that of a line above with
 * the same tabs; else that of the line above, or of one further up where this line itself opens something, or has fewer tabs.
 */
function depthOf(line: Line, open: readonly Above[], next: Line | undefined): number {
  const above = open.at(-1);
  if (!above) return 0;
  const isNextDeeper = next !== undefined && !next.lead.includes('\t') && next.lead.length > above.depth;
  if (OPENS.test(above.line.content) && !/^[}\]]/.test(line.content))
    return isNextDeeper && !OPENS.test(line.content) ? next.lead.length : besideOf(above, '') + STEP;
  const alike = open.findLast((one) => one.line.lead === line.lead);
  if (alike) return alike.depth;
  const beside = besideOf(above, line.content);
  const most = Math.min(
    beside,
    ...(OPENS.test(line.content) ? [widthOf(line.lead), depthBelow(next)] : []),
    ...(above.line.lead.includes('\t') && line.lead.length < above.line.lead.length ? [beside - 1] : []),
  );
  return most === beside ? beside : (open.findLast(({ depth }) => depth <= most)?.depth ?? 0);
}

/** Where a line stands that belongs beside the one above: behind its dash, if it has one. */
function besideOf({ line, depth }: Above, content: string): number {
  return DASH.test(line.content) && !DASH.test(content) ? depth + STEP : depth;
}

/** The greatest depth of a line that opens what comes next, as far as that tells. */
function depthBelow(next: Line | undefined): number {
  return next && !next.lead.includes('\t') ? next.lead.length - 1 : Number.POSITIVE_INFINITY;
}

function widthOf(lead: string): number {
  return [...lead].reduce((sum, one) => sum + (one === '\t' ? STEP : 1), 0);
}

/** For each line the next one below that has content. */
function nextContents(lines: readonly Line[]): (Line | undefined)[] {
  const nextOf = new Array<Line | undefined>(lines.length);
  let next: Line | undefined;
  for (let index = lines.length - 1; index >= 0; index--) {
    nextOf[index] = next;
    const line = lines[index];
    if (line && isContent(line)) next = line;
  }
  return nextOf;
}

function isContent({ content }: Line): boolean {
  return content !== '' && !content.startsWith('#');
}

function linesOf(text: string): Line[] {
  const lines: Line[] = [];
  for (const match of text.matchAll(/(?<=^|[\r\n])(\ufeff?)([ \t]*)([^\r\n]*)/g)) {
    const [, mark = '', lead = '', rest = ''] = match;
    lines.push({ start: match.index + mark.length, lead, content: rest.trimEnd() });
  }
  return lines;
}

interface Parts {
  readonly chunks: readonly Chunk[];
  readonly problems: readonly Problem[];
}

/**
 * The parts of a text with tabs, at each of which they are noted: what else were told of them would follow from the
 * tabs, and so would the depth of a line that has one. `text` is as it is read, each tab a space.
 */
export function besideTabs(text: string, { chunks, problems }: Parts, tabs: readonly number[]): Parts {
  if (tabs.length === 0) return { chunks, problems };
  const hasTab = (start: number, end: number) => (tabs[countBelow(tabs, start)] ?? text.length) < end;
  const isOfTab = ({ at }: Problem) => hasTab(at.start, at.end);
  const misplaced = new Set(problems.filter(isOfTab).map(({ at }) => at.start));
  const noted = (chunk: Chunk, index: number): Chunk => {
    const key = keyLineOf(text, chunk);
    if (misplaced.has(key.start)) return { ...chunk, tabs: 'misplaced' };
    const next = chunks[index + 1];
    const nextKey = next && keyLineOf(text, next);
    const isCut = nextKey !== undefined && hasTab(nextKey.start, nextKey.end);
    return isCut || hasTab(chunk.start, chunk.end) ? { ...chunk, tabs: 'within' } : chunk;
  };
  return { chunks: chunks.map(noted), problems: problems.filter((problem) => !isOfTab(problem)) };
}

/** The first line of a chunk that is no comment, from its start to its first letter. */
function keyLineOf(text: string, chunk: Chunk): { readonly start: number; readonly end: number } {
  const before = /^(?:[ \r]*(?:#[^\n]*)?\n)*/.exec(text.slice(chunk.start, chunk.end))?.[0].length ?? 0;
  const start = chunk.start + before;
  const indent = /^ */.exec(text.slice(start, chunk.end))?.[0].length ?? 0;
  return { start, end: start + indent };
}
