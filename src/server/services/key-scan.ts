/**
 * Finds keys and their paths in plan text by its lines and brackets, without parsing it. Half-typed text is the normal
 * state of an editor, and a parser has nothing to say about a key that has no colon yet.
 */

/** A key as it stands in the text; list items count as the key `[]`. */
export interface KeyToken {
  readonly path: readonly string[];
  readonly start: number;
  readonly end: number;
}

/** What is open where a scan ends. */
export interface ScanState {
  readonly tokens: readonly KeyToken[];
  /** Keys that lead to the place. */
  readonly path: readonly string[];
  readonly at: 'key' | 'value' | 'comment';
  /** Where the text of the key or value at the place begins. */
  readonly wordStart: number;
  /** Whether the place is inside braces or brackets. */
  readonly inFlow: boolean;
}

interface Block {
  readonly indent: number;
  readonly key: string;
}

interface Flow {
  readonly open: '{' | '[';
  key: string | undefined;
}

const BLOCK_KEY = /(?:"([^"\n]*)"|'([^'\n]*)'|([^\s#:{}[\],"'][^:#{}[\],\n]*?))[ \t]*:(?=[ \t\r\n]|$)/y;
const LIST_ITEM = '[]';
const DEEPEST = 64;

/**
 * Reads the text from `from`, the beginning of a line, to `to`. With `resume`, the beginning of a later line, what
 * stands between the first line and that one is left out.
 */
export function scanKeys(text: string, from: number, to: number, resume = from): ScanState {
  const scanner = new Scanner(text, to);
  let at = from < to && resume > from ? Math.max(scanner.line(from), resume) : from;
  while (at < to) at = scanner.line(at);
  return scanner.state(lineStartOf(text, to));
}

export function lineStartOf(text: string, offset: number): number {
  return offset <= 0 ? 0 : text.lastIndexOf('\n', offset - 1) + 1;
}

class Scanner {
  private readonly tokens: KeyToken[] = [];
  private block: Block[] = [];
  private readonly flow: Flow[] = [];
  private at: ScanState['at'] = 'key';
  private wordStart = 0;
  private wordIsEmpty = true;
  /** Where the last line read begins. */
  private lastLine = -1;

  constructor(
    private readonly text: string,
    private readonly to: number,
  ) {}

  /** Reads the line at `start`, and further lines while a bracket stays open; gives the next line's start. */
  line(start: number): number {
    this.lastLine = start;
    if (this.flow.length > 0) return this.readFlow(start);
    const end = this.lineEnd(start);
    let at = this.skipSpace(start, end);
    this.at = 'key';
    this.wordStart = at;
    if (at >= end) return end + 1;
    if (this.text[at] === '#') {
      this.at = 'comment';
      return end + 1;
    }
    at = this.listItems(start, at, end);
    at = this.blockKey(start, at, end);
    if (this.atValue() && (this.text[at] === '{' || this.text[at] === '[')) return this.readFlow(at);
    if (/(^|\s)#/.test(this.text.slice(at, end))) this.at = 'comment';
    return end + 1;
  }

  state(lastLineStart: number): ScanState {
    const path = this.path();
    const inFlow = this.flow.length > 0;
    if (this.lastLine !== lastLineStart && !inFlow) {
      // The place is at the very beginning of a line that has not been read.
      return { tokens: this.tokens, path: [], at: 'key', wordStart: this.to, inFlow };
    }
    return { tokens: this.tokens, path, at: this.at, wordStart: this.wordStart, inFlow };
  }

  private path(): string[] {
    const inside = this.flow.flatMap(({ open, key }) => (open === '[' ? [LIST_ITEM] : key ? [key] : []));
    return [...this.block.map(({ key }) => key), ...inside];
  }

  private listItems(start: number, from: number, end: number): number {
    let at = from;
    while (this.text[at] === '-' && (at + 1 >= end || this.text[at + 1] === ' ')) {
      const indent = at - start;
      this.block = this.block.filter(
        (open) => open.indent < indent || (open.indent === indent && open.key !== LIST_ITEM),
      );
      this.block.push({ indent, key: LIST_ITEM });
      this.at = 'value';
      at = this.skipSpace(at + 1, end);
      this.wordStart = at;
    }
    if (this.at === 'key') this.close(at - start);
    return at;
  }

  private blockKey(start: number, from: number, end: number): number {
    BLOCK_KEY.lastIndex = from - start;
    const match = BLOCK_KEY.exec(this.text.slice(start, end));
    if (!match) return from;
    const key = match[1] ?? match[2] ?? match[3] ?? '';
    const indent = from - start;
    this.close(indent);
    this.block.push({ indent, key });
    const raw = match[0].replace(/[ \t]*:$/, '');
    this.keep(from, from + raw.length);
    this.at = 'value';
    this.wordStart = this.skipSpace(from + match[0].length, end);
    return this.wordStart;
  }

  /** Keys nested deeper than any plan's are left out: their paths would take more room than the text. */
  private keep(start: number, end: number): void {
    if (this.block.length + this.flow.length > DEEPEST) return;
    this.tokens.push({ path: this.path(), start, end });
  }

  private atValue(): boolean {
    return this.at === 'value';
  }

  private close(indent: number): void {
    this.block = this.block.filter((open) => open.indent < indent);
  }

  /** Reads bracketed text from `start` until its last bracket closes or the text ends. */
  private readFlow(start: number): number {
    let at = start;
    let inComment = false;
    while (at < this.to) {
      const character = this.text[at] ?? '';
      if (inComment) inComment = character !== '\n';
      else if (character === '#' && /[\s,{[]/.test(this.text[at - 1] ?? ' ')) inComment = true;
      else if ((character === '"' || character === "'") && this.wordIsEmpty) {
        const close = this.text.indexOf(character, at + 1);
        at = close < 0 || close >= this.to ? this.to : close;
        this.wordIsEmpty = false;
      } else {
        if (/\S/.test(character)) this.wordIsEmpty = false;
        this.flowCharacter(character, at);
        if (this.flow.length === 0) return this.lineEnd(at) + 1;
      }
      at++;
    }
    if (inComment) this.at = 'comment';
    else this.wordStart = Math.min(this.skipBlank(this.wordStart), this.to);
    return at;
  }

  private flowCharacter(character: string, at: number): void {
    const top = this.flow.at(-1);
    if (character === '{' || character === '[') {
      this.flow.push({ open: character, key: undefined });
      this.begin(character === '{' ? 'key' : 'value', at + 1);
    } else if (character === '}' || character === ']') {
      this.flow.pop();
      this.begin('value', at + 1);
    } else if (character === ',' && top) {
      top.key = undefined;
      this.begin(top.open === '{' ? 'key' : 'value', at + 1);
    } else if (character === ':' && top?.open === '{' && top.key === undefined) {
      if (/\S/.test(this.text[at + 1] ?? ' ') && at + 1 < this.to) return;
      this.flowKey(top, at);
    }
  }

  private flowKey(top: Flow, colon: number): void {
    const start = this.skipBlank(this.wordStart);
    const raw = this.text.slice(start, colon).trimEnd();
    top.key = raw.replace(/^(["'])(.*)\1$/, '$2');
    this.keep(start, start + raw.length);
    this.begin('value', colon + 1);
  }

  private begin(what: 'key' | 'value', at: number): void {
    this.at = what;
    this.wordStart = at;
    this.wordIsEmpty = true;
  }

  private lineEnd(from: number): number {
    const end = this.text.indexOf('\n', from);
    return end < 0 || end > this.to ? this.to : end;
  }

  private skipSpace(from: number, end: number): number {
    let at = from;
    while (at < end && (this.text[at] === ' ' || this.text[at] === '\t' || this.text[at] === '\r')) at++;
    return at;
  }

  private skipBlank(from: number): number {
    let at = from;
    while (at < this.to && /\s/.test(this.text[at] ?? '')) at++;
    return at;
  }
}
