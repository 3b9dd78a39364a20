import { isMap, parseDocument } from 'yaml';
import { lineEnd, lineEndingOf, lineStartsOf } from '../lines';
import { parseChunk } from '../text/parse';
import { type LaidLine, laidLines } from './lines';

/** A change of the layout: the text from `start` to `end` becomes `newText`. */
export interface LayoutEdit {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** Reading a longer text twice would hold up the editor. UTF-16 code units. */
const MOST_TEXT = 1024 * 1024;

/**
 * Edits that lay a plan file out evenly: two spaces for each level, one space inside brackets and behind colons and
 * commas, nothing at the ends of lines, one empty line at most, one line end at the end. Words, values, order and
 * comments stay as they are; where that could not be made sure of, because the text cannot be read as YAML for
 * instance, there are no edits. A byte order mark stays too.
 */
export function layoutEdits(text: string): LayoutEdit[] {
  if (text.charCodeAt(0) === 0xfeff)
    return layoutEdits(text.slice(1)).map(({ start, end, newText }) => ({
      start: start + 1,
      end: end + 1,
      newText,
    }));
  if (text.trim() === '' || text.length > MOST_TEXT || text.includes('\t')) return [];
  const edits = lineEdits(text, laidLines(text));
  if (edits.length === 0) return [];
  const before = meaning(text);
  return before !== undefined && meaning(applied(text, edits)) === before ? edits : [];
}

function lineEdits(text: string, lines: readonly LaidLine[]): LayoutEdit[] {
  const starts = lineStartsOf(text);
  const ending = lineEndingOf(text);
  const edits: LayoutEdit[] = [];
  let blankLines = 1;
  lines.forEach((line, index) => {
    const start = starts[index] ?? text.length;
    const end = lineEnd(text, starts, index);
    const next = starts[index + 1] ?? text.length;
    const isLast = lines.slice(index + 1).every((other) => other.text === '');
    const isBlank = line.text === '' && !line.kept;
    blankLines = isBlank ? blankLines + 1 : 0;
    if (isBlank && (blankLines > 1 || isLast)) {
      if (next > start) edits.push({ start, end: next, newText: '' });
      return;
    }
    if (text.slice(start, end) !== line.text) edits.push({ start, end, newText: line.text });
    if (isLast && next === end && end > start) edits.push({ start: end, end, newText: ending });
  });
  return edits;
}

function applied(text: string, edits: readonly LayoutEdit[]): string {
  let at = 0;
  const parts: string[] = [];
  for (const { start, end, newText } of edits) {
    parts.push(text.slice(at, start), newText);
    at = end;
  }
  return parts.join('') + text.slice(at);
}

/** What a text says, values and comments, so that two texts can be held against each other; undefined if unreadable. */
function meaning(text: string): string | undefined {
  try {
    const document = parseDocument(text, { uniqueKeys: false, logLevel: 'silent' });
    if (document.errors.length > 0 || !isMap(document.contents)) return undefined;
    const comments = laidLines(text).map(({ comment }) => comment);
    // Where a plan's own reader finds YAML that a plan may not have, a stray tag for one, spaces may say something.
    if (parseChunk(text).problems.length > 0) return undefined;
    return JSON.stringify([contents(document.contents), comments.filter((comment) => comment !== '')]);
  } catch {
    return undefined;
  }
}

/** Keys and values in their order, each as it was written: `1.50` is not `1.5`, and keys may stand twice. */
function contents(node: unknown): unknown {
  if (typeof node !== 'object' || node === null) return node ?? null;
  if ('items' in node && Array.isArray(node.items)) return node.items.map(contents);
  if ('key' in node && 'value' in node) return [contents(node.key), contents(node.value)];
  if ('value' in node) return 'source' in node ? [node.source, node.value] : node.value;
  return null;
}
