import { feedStartsOf, lineAt } from '../lines';

/** Any number of them, none too: always a match. */
const SPACES = / */y;
const KEY = /^([a-z][a-z0-9-]*) *:(?: |$)/;
const HASH = 35;
/** Marks of lines without content: a blank one, and a comment, whose indent is counted on from there. */
const BLANK = -1;
const COMMENT = -2;

/** Lines that belong together: comments, the key's line (by index), and all deeper lines below it. */
export interface Group {
  readonly first: number;
  readonly key: number;
  last: number;
}

/** A text's lines by their number, as numbers: a large plan has ten thousand. They end with LF or CRLF. */
export class Lines {
  readonly count: number;
  private readonly starts: readonly number[];
  /** The indent of a line with content; less than nothing for others. */
  private readonly marks: Int32Array;

  constructor(
    private readonly text: string,
    starts: readonly number[] = feedStartsOf(text),
  ) {
    this.starts = starts;
    // Behind the last line's end no other begins.
    this.count = starts.at(-1) === text.length ? starts.length - 1 : starts.length;
    this.marks = new Int32Array(this.count);
    for (let line = 0; line < this.count; line++) {
      const start = starts[line] ?? 0;
      SPACES.lastIndex = start;
      SPACES.test(text);
      const at = SPACES.lastIndex;
      this.marks[line] = this.markOf(text.charCodeAt(at), at, line) ?? at - start;
    }
  }

  private markOf(code: number, at: number, line: number): number | undefined {
    if (code === HASH) return COMMENT - (at - this.startOf(line));
    // A carriage return can stand within a line that is no text as plans have it.
    const isOver = code === 10 || code === 13 || Number.isNaN(code);
    return isOver && at >= this.endOf(line) ? BLANK : undefined;
  }

  isContent(line: number): boolean {
    return (this.marks[line] ?? BLANK) >= 0;
  }

  isComment(line: number): boolean {
    return (this.marks[line] ?? BLANK) <= COMMENT;
  }

  /** Spaces before a line's content or comment. */
  indentOf(line: number): number {
    const mark = this.marks[line] ?? BLANK;
    return mark <= COMMENT ? COMMENT - mark : Math.max(0, mark);
  }

  /** The one that holds an offset. */
  lineAt(offset: number): number {
    return lineAt(this.starts, offset);
  }

  startOf(line: number): number {
    return this.starts[line] ?? this.text.length;
  }

  /** Where its content begins. */
  contentOf(line: number): number {
    return this.startOf(line) + this.indentOf(line);
  }

  /** The first with content, from one on, that stands no deeper; their number where there is none. */
  contentFrom(from: number, most = Number.POSITIVE_INFINITY): number {
    let line = from;
    while (line < this.count && !(this.isContent(line) && this.indentOf(line) <= most)) line++;
    return line;
  }

  /** What stands in it. */
  textOf(line: number): string {
    return this.text.slice(this.contentOf(line), this.endOf(line));
  }

  /** The key that it begins with, if it does. */
  keyOf(line: number): string | undefined {
    return KEY.exec(this.textOf(line))?.[1];
  }

  /** Where it ends, before its line ending. */
  endOf(line: number): number {
    const { text } = this;
    const start = this.startOf(line);
    let end = this.startOf(line + 1);
    if (end > start && text.charCodeAt(end - 1) === 10) end--;
    if (end > start && text.charCodeAt(end - 1) === 13) end--;
    return end;
  }
}
