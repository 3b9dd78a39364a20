/** A line of a text: `end` before its line ending, `next` where the next line starts. */
export interface TextLine {
  readonly start: number;
  readonly end: number;
  readonly next: number;
}

/** The lines of a text whose lines end with LF or CRLF. */
export function* linesOf(text: string, from = 0): Generator<TextLine> {
  let start = from;
  while (start < text.length) {
    const feed = text.indexOf('\n', start);
    const next = feed < 0 ? text.length : feed + 1;
    let end = feed < 0 ? text.length : feed;
    if (end > start && text.charCodeAt(end - 1) === 13) end--;
    yield { start, end, next };
    start = next;
  }
}
