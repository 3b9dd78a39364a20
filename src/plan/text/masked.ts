/** What may stand before a quote that begins a text in quotes, blanks left out. */
const BEFORE_QUOTE = /(?:^|[\n:,[{-])[ \r]*$/;

/**
 * A text with all that is quoted and all comments made harmless, every character at its place: `q` stands for what is
 * in quotes, spaces for comments. A quote that its line does not close stays.
 */
export function masked(text: string): string {
  return text.replace(/[^\n]+/g, maskedLine);
}

function maskedLine(line: string): string {
  let mask = '';
  for (let at = 0; at < line.length; ) {
    const sign = line[at] ?? '';
    if (sign === '#' && /(?:^|\s)$/.test(mask)) return mask + blanks(line.slice(at));
    const end = sign === '"' || sign === "'" ? closingOf(line, at, mask) : at;
    mask += end > at ? 'q'.repeat(end - at) : sign;
    at = Math.max(end, at + 1);
  }
  return mask;
}

/** Behind the quote that closes the one at `at`; `at` where none does, or where it opens nothing. */
function closingOf(line: string, at: number, mask: string): number {
  if (!BEFORE_QUOTE.test(mask)) return at;
  const pattern = line[at] === '"' ? /"(?:[^"\\]|\\.)*"/y : /'(?:[^']|'')*'/y;
  pattern.lastIndex = at;
  return pattern.test(line) ? pattern.lastIndex : at;
}

function blanks(comment: string): string {
  return comment.replace(/[^\r]/g, ' ');
}

/** One line of a text. */
export interface LineSpan {
  readonly start: number;
  /** Before its line ending. */
  readonly end: number;
  /** Where the next one starts. */
  readonly next: number;
}

/** The line around a place. */
export function lineOf(text: string, at: number): LineSpan {
  const start = text.lastIndexOf('\n', at - 1) + 1;
  const feed = text.indexOf('\n', at);
  const end = feed < 0 ? text.length : feed;
  const isReturned = end > start && text[end - 1] === '\r';
  return { start, end: isReturned ? end - 1 : end, next: end + 1 };
}

/** Where a masked line's content ends: before a comment and the blanks around it. */
export function contentEnd(mask: string, { start, end }: Pick<LineSpan, 'start' | 'end'>): number {
  return start + mask.slice(start, end).trimEnd().length;
}
