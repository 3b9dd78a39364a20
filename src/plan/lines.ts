import type { TextView } from './text/text-view';

/** A place as editors count it: zero-based line, and UTF-16 code units from the line's start. */
export interface LinePosition {
  readonly line: number;
  readonly column: number;
}

/** The offsets at which a text's lines begin. Lines end with LF, CRLF or a lone CR, as editors have it. */
export function lineStartsOf(text: string): number[] {
  if (!hasLoneReturn(text)) return feedStartsOf(text);
  const starts = [0];
  for (let index = 0; index < text.length; index++) {
    const code = text.charCodeAt(index);
    if (code === 10) starts.push(index + 1);
    else if (code === 13 && text.charCodeAt(index + 1) !== 10) starts.push(index + 1);
  }
  return starts;
}

/** The same for a text whose lines end with LF or CRLF: the engine finds the feeds much sooner than a loop does. */
export function feedStartsOf(text: string): number[] {
  const starts = [0];
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) starts.push(at + 1);
  return starts;
}

function hasLoneReturn(text: string): boolean {
  for (let at = text.indexOf('\r'); at >= 0; at = text.indexOf('\r', at + 1))
    if (text.charCodeAt(at + 1) !== 10) return true;
  return false;
}

/** The zero-based line that holds the offset. */
export function lineAt(lineStarts: readonly number[], offset: number): number {
  let low = 0;
  let high = lineStarts.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((lineStarts[middle] ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Line and column of an offset; a negative offset counts as 0. */
export function positionAt(lineStarts: readonly number[], offset: number): LinePosition {
  const line = lineAt(lineStarts, offset);
  return { line, column: Math.max(0, offset - (lineStarts[line] ?? 0)) };
}

/** The offset of a position; one beyond its line's end counts as the line's end, one beyond the text as its end. */
export function offsetAt(
  text: TextView,
  lineStarts: readonly number[],
  { line, column }: LinePosition,
): number {
  const start = lineStarts[line];
  if (start === undefined) return line < 0 ? 0 : text.length;
  return Math.min(start + Math.max(0, column), lineEnd(text, lineStarts, line));
}

/** The offset at which a line ends, before its line ending. */
export function lineEnd(text: TextView, lineStarts: readonly number[], line: number): number {
  let end = lineStarts[line + 1] ?? text.length;
  const start = lineStarts[line] ?? text.length;
  if (line + 1 < lineStarts.length) {
    if (end > start && text.charCodeAt(end - 1) === 10) end--;
    if (end > start && text.charCodeAt(end - 1) === 13) end--;
  }
  return end;
}

/** The line ending a text uses: that of its first line; LF where it has none. */
export function lineEndingOf(text: string): '\n' | '\r\n' {
  const first = text.indexOf('\n');
  return first > 0 && text.charCodeAt(first - 1) === 13 ? '\r\n' : '\n';
}
