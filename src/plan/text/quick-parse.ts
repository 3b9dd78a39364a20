import { KnownTexts, ownCopy } from './known-texts';
import type { KeyNode, ListNode, MapNode, Node, Pair, ScalarNode } from './nodes';

/**
 * Reads the YAML that plans are made of: block maps, flow maps and lists, lists of flow maps, and scalars on one line.
 * Whatever it does not know for certain (anchors, block scalars, text over several lines, tabs, every error) it hands
 * back by returning undefined, and the full YAML reader takes over. A test holds both to equal trees over many
 * mutated plans. It is some thirty times faster than the full reader.
 */
export function quickParse(text: string): MapNode | undefined {
  return new QuickParser(text).root();
}

export const LF = 10;
const CR = 13;
export const SPACE = 32;
const HASH = 35;
const COLON = 58;
const COMMA = 44;
export const DASH = 45;
export const QUOTE = 39;
export const DOUBLE_QUOTE = 34;
export const OPEN_LIST = 91;
const CLOSE_LIST = 93;
export const OPEN_MAP = 123;
export const CLOSE_MAP = 125;

const INTEGER = /^[-+]?\d+$/;
const DECIMAL = /^[-+]?(?:\.\d+|\d+\.\d*)$/;
/** Scalars that YAML's core schema reads as something else than text, and that no plan needs. */
const SPECIAL =
  /^(?:null|Null|NULL|true|True|TRUE|false|False|FALSE|0o[0-7]+|0x[0-9a-fA-F]+|[-+]?(?:\.\d+|\d+(?:\.\d*)?)[eE][-+]?\d+)$/;
/** What begins with a letter and is special is no longer than `false`. */
const LONGEST_SPECIAL_WORD = 5;
const PLAIN_START = /^(?:[A-Za-z0-9]|[-+.]\d|[-+]\.\d)/;
/** Up to a colon with a space behind it; two hundred signs at most. */
const USUAL_KEY = /[A-Za-z][\w-]{0,198}:(?= )/y;
const PLAIN_SIGNS = /[^\r\n#:,[\]{}]+/y;
const MOST_DEPTH = 20;

interface PlainScalar {
  readonly raw: string;
  readonly value: string | number;
}

/** Scalars by what is written. Longer ones are hardly ever said twice. */
const plainScalars = new KnownTexts<PlainScalar>(4096);
const MOST_KNOWN_LENGTH = 60;

export class QuickParser {
  protected at = 0;

  constructor(protected text: string) {}

  root(): MapNode | undefined {
    const indent = this.nextLine();
    if (indent === undefined || this.at >= this.text.length) return undefined;
    const map = this.blockMap(indent, 0);
    return map && this.at >= this.text.length ? map : undefined;
  }

  /** From a line's start to the next line with content; gives its indent, and stands at its first character. */
  protected nextLine(): number | undefined {
    for (;;) {
      const start = this.at;
      this.skipSpaces();
      const code = this.code();
      if (this.at >= this.text.length) return 0;
      if (code === HASH) this.skipToLineEnd();
      else if (code !== LF && code !== CR) return code === 9 ? undefined : this.at - start;
      if (!this.takeLineEnd()) return undefined;
    }
  }

  protected blockMap(indent: number, depth: number): MapNode | undefined {
    if (depth > MOST_DEPTH) return undefined;
    const start = this.at;
    const pairs: Pair[] = [];
    for (;;) {
      const key = this.key(false);
      if (!key) return undefined;
      const value = this.blockValue(indent, depth);
      if (!value) return undefined;
      pairs.push({ key, value });
      const next = this.indentHere;
      if (this.at < this.text.length && next > indent) return undefined;
      if (this.at >= this.text.length || next < indent) break;
    }
    return { kind: 'map', pairs, flow: false, start, end: pairs.at(-1)?.value.end ?? start };
  }

  /** The indent of the line that the parser stands at, once a value has been read to its end. */
  protected indentHere = 0;

  /** A value behind a key's colon, or on the lines below it. Ends at the first character of the next line's content. */
  protected blockValue(indent: number, depth: number): Node | undefined {
    this.skipSpaces();
    if (!this.isLineOver()) {
      const value = this.inlineValue(indent, false, 0);
      return value && this.endLine() ? value : undefined;
    }
    if (!this.endLine() || this.at >= this.text.length || this.indentHere <= indent) return undefined;
    if (this.code() === DASH && this.code(1) === SPACE) return this.blockList(this.indentHere);
    return this.blockMap(this.indentHere, depth + 1);
  }

  private blockList(indent: number): ListNode | undefined {
    const start = this.at;
    const items: Node[] = [];
    while (this.code() === DASH && this.code(1) === SPACE) {
      this.at += 2;
      this.skipSpaces();
      const item = this.inlineValue(indent, false, 0);
      if (!item || !this.endLine()) return undefined;
      items.push(item);
      if (this.at >= this.text.length || this.indentHere < indent) break;
      if (this.indentHere > indent) return undefined;
    }
    // Something else than a dash at the list's indent is an error.
    if (this.at < this.text.length && this.indentHere >= indent) return undefined;
    return { kind: 'list', items, flow: false, start, end: items.at(-1)?.end ?? start };
  }

  /** Takes what is left of a line (a comment at most), and goes on to the next line with content. */
  protected endLine(): boolean {
    if (this.code() === LF && this.endsPlainly()) return true;
    if (!this.takeRestOfLine()) return false;
    if (this.at >= this.text.length) return true;
    const indent = this.nextLine();
    if (indent === undefined) return false;
    this.indentHere = indent;
    return true;
  }

  /** Whether a line that ends here is followed by one with content, which is then gone to, as nearly all are. */
  private endsPlainly(): boolean {
    const { text } = this;
    const start = this.at + 1;
    let at = start;
    let code = text.charCodeAt(at);
    while (code === SPACE) code = text.charCodeAt(++at);
    // No sign below a space, no comment, and not the text's end.
    if (!(code > SPACE) || code === HASH) return false;
    this.at = at;
    this.indentHere = at - start;
    return true;
  }

  protected inlineValue(indent: number, inFlow: boolean, depth: number): Node | undefined {
    if (depth > MOST_DEPTH) return undefined;
    switch (this.code()) {
      case OPEN_MAP:
        return this.flowMap(indent, depth);
      case OPEN_LIST:
        return this.flowList(indent, depth);
      case QUOTE:
      case DOUBLE_QUOTE:
        return this.quoted();
      default:
        return this.plain(inFlow);
    }
  }

  private flowMap(indent: number, depth: number): MapNode | undefined {
    const start = this.at++;
    const pairs: Pair[] = [];
    for (;;) {
      if (!this.skipInFlow(indent)) return undefined;
      if (this.code() === CLOSE_MAP) break;
      const key = this.key(true);
      if (!key) return undefined;
      this.skipSpaces();
      const value = this.inlineValue(indent, true, depth + 1);
      if (!value || !this.skipInFlow(indent)) return undefined;
      pairs.push({ key, value });
      if (!this.takeComma(CLOSE_MAP)) return undefined;
    }
    this.at++;
    return { kind: 'map', pairs, flow: true, start, end: this.at };
  }

  private flowList(indent: number, depth: number): ListNode | undefined {
    const start = this.at++;
    const items: Node[] = [];
    for (;;) {
      if (!this.skipInFlow(indent)) return undefined;
      if (this.code() === CLOSE_LIST) break;
      const item = this.inlineValue(indent, true, depth + 1);
      if (!item || !this.skipInFlow(indent)) return undefined;
      items.push(item);
      if (!this.takeComma(CLOSE_LIST)) return undefined;
    }
    this.at++;
    return { kind: 'list', items, flow: true, start, end: this.at };
  }

  protected takeComma(close: number): boolean {
    if (this.code() === COMMA) this.at++;
    else if (this.code() !== close) return false;
    return true;
  }

  /** A key with its colon and the white space that must follow it. */
  protected key(inFlow: boolean): KeyNode | undefined {
    const start = this.at;
    const usual = this.usualKey(start);
    if (usual) return usual;
    const code = this.code();
    const isQuoted = code === QUOTE || code === DOUBLE_QUOTE;
    let name: string;
    if (isQuoted) {
      const scalar = this.quoted();
      if (!scalar) return undefined;
      name = String(scalar.value);
    } else {
      let end = this.at;
      for (; end < this.text.length; end++) {
        const next = this.text.charCodeAt(end);
        if (next === COLON || next === LF || next === CR || next === HASH) break;
        if (inFlow && isFlowSign(next)) return undefined;
      }
      this.at = end;
      while (end > start && this.text.charCodeAt(end - 1) === SPACE) end--;
      const scalar = this.plainFrom(start, end);
      if (typeof scalar?.value !== 'string') return undefined;
      name = scalar.value;
      if (name.length > 200) return undefined;
      this.at = end;
    }
    const end = this.at;
    this.skipSpaces();
    if (this.code() !== COLON) return undefined;
    this.at++;
    const after = this.code();
    const isDone =
      after === SPACE || (!inFlow && (this.at >= this.text.length || after === LF || after === CR));
    return isDone ? { name, isText: true, start, end } : undefined;
  }

  /** A key that is a plain word with its colon and a space right behind it, as most are. */
  private usualKey(start: number): KeyNode | undefined {
    USUAL_KEY.lastIndex = start;
    if (!USUAL_KEY.test(this.text)) return undefined;
    const end = USUAL_KEY.lastIndex - 1;
    const name = this.text.slice(start, end);
    if (name.length <= LONGEST_SPECIAL_WORD && SPECIAL.test(name)) return undefined;
    this.at = end + 1;
    return { name, isText: true, start, end };
  }

  private quoted(): ScalarNode | undefined {
    const start = this.at;
    const quote = this.code();
    let end = start + 1;
    for (; ; end++) {
      if (end >= this.text.length) return undefined;
      const code = this.text.charCodeAt(end);
      if (code === LF || code === CR || code === 92) return undefined;
      if (code !== quote) continue;
      if (quote === DOUBLE_QUOTE || this.text.charCodeAt(end + 1) !== QUOTE) break;
      end++;
    }
    const inner = this.text.slice(start + 1, end);
    this.at = end + 1;
    const value = quote === QUOTE ? inner.replaceAll("''", "'") : inner;
    return { kind: 'scalar', value, raw: this.text.slice(start, this.at), start, end: this.at };
  }

  protected plain(inFlow: boolean): ScalarNode | undefined {
    const start = this.at;
    // What stands for itself wherever it is; the rest is looked at sign by sign.
    PLAIN_SIGNS.lastIndex = start;
    let end = PLAIN_SIGNS.test(this.text) ? PLAIN_SIGNS.lastIndex : start;
    for (; end < this.text.length; end++) {
      const code = this.text.charCodeAt(end);
      if (code === LF || code === CR) break;
      if (code === HASH && this.text.charCodeAt(end - 1) === SPACE) break;
      if (inFlow && isFlowSign(code)) break;
      if (code === COLON) {
        const next = this.text.charCodeAt(end + 1);
        if (Number.isNaN(next) || next <= SPACE || (inFlow && isFlowSign(next))) return undefined;
      }
    }
    this.at = end;
    while (end > start && this.text.charCodeAt(end - 1) === SPACE) end--;
    return this.plainFrom(start, end);
  }

  private plainFrom(start: number, end: number): ScalarNode | undefined {
    const known = plainScalar(this.text.slice(start, end));
    return known && { kind: 'scalar', value: known.value, raw: known.raw, start, end };
  }

  /** White space, line ends and comments between the parts of a flow collection. */
  protected skipInFlow(indent: number): boolean {
    for (;;) {
      this.skipSpaces();
      if (!this.isLineOver()) return this.at < this.text.length;
      if (!this.takeRestOfLine() || this.at >= this.text.length) return false;
      const start = this.at;
      this.skipSpaces();
      if (!this.isLineOver() && this.at - start <= indent) return false;
    }
  }

  /** At the line's end, or at a comment. */
  protected isLineOver(): boolean {
    const code = this.code();
    return this.at >= this.text.length || code === LF || code === CR || code === HASH;
  }

  private takeRestOfLine(): boolean {
    const start = this.at;
    this.skipSpaces();
    if (this.code() === HASH) {
      const before = this.text.charCodeAt(this.at - 1);
      if (this.at === start && before !== SPACE && before !== LF) return false;
      this.skipToLineEnd();
    }
    return this.at >= this.text.length || this.takeLineEnd();
  }

  private takeLineEnd(): boolean {
    if (this.at >= this.text.length) return true;
    if (this.code() === CR) this.at++;
    if (this.code() !== LF) return false;
    this.at++;
    return true;
  }

  private skipToLineEnd(): void {
    const feed = this.text.indexOf('\n', this.at);
    this.at = feed < 0 ? this.text.length : feed;
  }

  protected skipSpaces(): void {
    const { text } = this;
    let { at } = this;
    while (text.charCodeAt(at) === SPACE) at++;
    this.at = at;
  }

  protected code(ahead = 0): number {
    return this.text.charCodeAt(this.at + ahead);
  }
}

/** What is written as a plain scalar on one line; undefined for what is not read for certain. */
export function plainScalar(written: string): PlainScalar | undefined {
  const known = plainScalars.get(written);
  if (known) return known;
  if (!PLAIN_START.test(written) || SPECIAL.test(written) || written.includes('\t')) return undefined;
  const isKept = written.length <= MOST_KNOWN_LENGTH;
  const raw = isKept ? ownCopy(written) : written;
  const scalar = { raw, value: INTEGER.test(raw) || DECIMAL.test(raw) ? Number(raw) : raw };
  return isKept ? plainScalars.set(raw, scalar) : scalar;
}

/** Whether a scalar holds no text but its own, wherever it was read. */
export function isRemembered(raw: string): boolean {
  return raw.length <= MOST_KNOWN_LENGTH;
}

function isFlowSign(code: number): boolean {
  return (
    code === COMMA || code === OPEN_LIST || code === CLOSE_LIST || code === OPEN_MAP || code === CLOSE_MAP
  );
}
