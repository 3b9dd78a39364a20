import { type EntryAround, entryAround, sectionEnd } from './entry-lines';
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

/** Beyond it an entry, in characters, is no plan's, and looking for its keys would hold up the editor. */
const LONGEST_ENTRY = 4_000_000;

/** The place at an offset; undefined inside a comment. Only the entry around it is looked at, not its whole section. */
export function cursorAt(text: string, offset: number): CursorPlace | undefined {
  // A byte order mark is no part of the first key: read as a line's end, it leaves every offset as it is.
  if (text.charCodeAt(0) === 0xfeff) return cursorAt(`\n${text.slice(1)}`, Math.max(1, offset));
  const around = entryAround(text, offset);
  const { heading, start, end } = around;
  if (end - start > LONGEST_ENTRY) return undefined;
  const before = scanKeys(text, heading, offset, start);
  if (before.at === 'comment') return undefined;
  const { tokens } = scanKeys(text, heading, end, start);
  const siblings = (parent: readonly string[]) => siblingsIn(text, around, tokens, parent);
  const onKey = tokens.find((token) => token.start <= offset && offset <= token.end);
  if (onKey) return onKeyPlace(text, onKey, siblings);
  const lineStart = lineStartOf(text, offset);
  const blankLine = text.slice(lineStart, offset).trim() === '';
  if (before.at === 'value') return valuePlace(text, before, offset);
  const path = before.inFlow || !blankLine ? before.path : blockPath(tokens, text, lineStart, offset);
  return newKeyPlace(text, before, path, offset, siblings);
}

type Siblings = (parent: readonly string[]) => ReadonlySet<string>;

function onKeyPlace(text: string, token: KeyToken, siblings: Siblings): CursorPlace {
  const { path, start, end } = token;
  return {
    path,
    at: 'key',
    text: text.slice(start, end),
    start,
    end,
    get siblings() {
      return siblings(path.slice(0, -1));
    },
  };
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
  siblings: Siblings,
): CursorPlace {
  const start = Math.min(before.wordStart, offset);
  const end = Math.max(offset, wordEnd(text, start, before.inFlow ? /[,:}\]\n]/ : /[:\n]/));
  return {
    path,
    at: 'new-key',
    text: text.slice(start, end),
    start,
    end,
    get siblings() {
      return siblings(path);
    },
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

/** Keys under `parent`: those of the entry around the place, or where these are entries those of its whole section. */
function siblingsIn(
  text: string,
  { heading }: EntryAround,
  tokens: readonly KeyToken[],
  parent: readonly string[],
): Set<string> {
  const all = parent.length !== 1 ? tokens : scanKeys(text, heading, sectionEnd(text, heading)).tokens;
  return new Set(
    all
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
