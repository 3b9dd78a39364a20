import { type KeyToken, lineStartOf, type ScanState, scanKeys } from './key-scan';

/** What stands at a place of a plan file's text. */
export interface CursorPlace {
  /** Keys that lead to the place; the key itself included where the place is on a key. List items are `[]`. */
  readonly path: readonly string[];
  /** `new-key` where a key could be written, or is half written. */
  readonly at: 'key' | 'value' | 'new-key';
  /** The key's or value's text as written, and where it stands. */
  readonly text: string;
  readonly start: number;
  readonly end: number;
  /** Keys that stand beside the place already. */
  readonly siblings: ReadonlySet<string>;
}

/** Beyond it a section, in characters, is no plan's, and looking for its keys would hold up the editor. */
const LONGEST_SECTION = 4_000_000;

/** The place at an offset; undefined inside a comment. */
export function cursorAt(text: string, offset: number): CursorPlace | undefined {
  const from = sectionStart(text, offset);
  const to = sectionEnd(text, offset);
  if (to - from > LONGEST_SECTION) return undefined;
  const before = scanKeys(text, from, offset);
  if (before.at === 'comment') return undefined;
  const { tokens } = scanKeys(text, from, to);
  const onKey = tokens.find((token) => token.start <= offset && offset <= token.end);
  if (onKey) return onKeyPlace(text, onKey, tokens);
  const lineStart = lineStartOf(text, offset);
  const blankLine = text.slice(lineStart, offset).trim() === '';
  if (before.at === 'value') return valuePlace(text, before, offset);
  const path = before.inFlow || !blankLine ? before.path : blockPath(tokens, text, lineStart, offset);
  return newKeyPlace(text, before, path, offset, tokens);
}

function onKeyPlace(text: string, token: KeyToken, tokens: readonly KeyToken[]): CursorPlace {
  const siblings = siblingsOf(tokens, token.path.slice(0, -1));
  const { path, start, end } = token;
  return { path, at: 'key', text: text.slice(start, end), start, end, siblings };
}

function valuePlace(text: string, before: ScanState, offset: number): CursorPlace {
  const start = Math.min(before.wordStart, offset);
  const stop = before.inFlow ? /[,}\]\n]/ : /\n/;
  const end = wordEnd(text, start, stop);
  return { path: before.path, at: 'value', text: text.slice(start, end), start, end, siblings: new Set() };
}

function newKeyPlace(
  text: string,
  before: ScanState,
  path: readonly string[],
  offset: number,
  tokens: readonly KeyToken[],
): CursorPlace {
  const start = Math.min(before.wordStart, offset);
  const end = Math.max(offset, wordEnd(text, start, before.inFlow ? /[,:}\]\n]/ : /[:\n]/));
  return {
    path,
    at: 'new-key',
    text: text.slice(start, end),
    start,
    end,
    siblings: siblingsOf(tokens, path),
  };
}

/** On a line with nothing but spaces, the depth of the caret tells which entry a new key belongs to. */
function blockPath(tokens: readonly KeyToken[], text: string, lineStart: number, offset: number): string[] {
  const column = offset - lineStart;
  for (const token of tokens.filter(({ start }) => start < lineStart).reverse()) {
    const indent = token.start - lineStartOf(text, token.start);
    if (text.slice(token.start - indent, token.start).trim() === '' && indent < column)
      return [...token.path];
  }
  return [];
}

function siblingsOf(tokens: readonly KeyToken[], parent: readonly string[]): Set<string> {
  return new Set(
    tokens
      .filter(({ path }) => path.length === parent.length + 1 && parent.every((key, at) => path[at] === key))
      .map(({ path }) => path.at(-1) ?? ''),
  );
}

/** Where the word that begins at `start` ends: before a comment, a stop or the end of the line, spaces left out. */
function wordEnd(text: string, start: number, stop: RegExp): number {
  let at = start;
  while (at < text.length && !stop.test(text[at] ?? '')) {
    if (text[at] === '#' && /\s/.test(text[at - 1] ?? ' ')) break;
    at++;
  }
  while (at > start && /\s/.test(text[at - 1] ?? '')) at--;
  return at;
}

/** The beginning of the section the offset stands in: the last line that begins with a key of its own. */
function sectionStart(text: string, offset: number): number {
  let start = lineStartOf(text, offset);
  while (start > 0 && !/[^\s#}\]-]/.test(text[start] ?? '\n')) start = lineStartOf(text, start - 1);
  return start;
}

function sectionEnd(text: string, offset: number): number {
  const next = /\n(?=[^\s#}\]-])/g;
  next.lastIndex = offset;
  return next.exec(text)?.index ?? text.length;
}
