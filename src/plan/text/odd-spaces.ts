import type { Fix, Problem } from '../problem';
import type { Blank } from './blank';
import { NO_WIDTH, numberOf, ODD, WIDE } from './odd-signs';

const ANY_ODD = new RegExp(ODD);
const EACH_ODD = new RegExp(ODD, 'g');
const SEEN = new RegExp(`[${WIDE}]`);
const BLANK = `[ \\t${WIDE}${NO_WIDTH}]`;
/** Where blanks stand between a plan's words: at a line's start, behind a dash, before a key, around its colon, before a comma or brace. */
const FEW = `${BLANK}{1,40}`;
const BETWEEN = [
  `^${BLANK}+`,
  `(?<=^${BLANK}*-)${FEW}`,
  `[{,]${FEW}(?=[\\w.-]+ ?:)`,
  `:(?<=(?:^|[{,-])(?:${FEW})?[\\w.][^:{}[\\],"'#]{0,80}:)${FEW}`,
  `(?<=[\\w.'")])${FEW}(?=:(?:${BLANK}|$))`,
  `(?<=[^\\s${WIDE}])${FEW}(?=[}\\]]|,(?:${BLANK}*$|${FEW}[\\w.-]+ ?:))`,
].map((pattern) => new RegExp(pattern, 'g'));
const LEAD = new RegExp(`^[ ${WIDE}${NO_WIDTH}]+`);
const MOST_LEAD = 200;
const IS_NO_WIDTH = new RegExp(`[${NO_WIDTH}]`);
const IS_BLANK = new RegExp(BLANK);
const QUOTED = /(?<=[\s:,[{-])(?:"(?:[^"\\]|\\.)*"|'(?:[^']|'')*')/g;
const COMMENT = new RegExp(`(?:^|[ \\t])#.*$|(?<=${ODD})#.*$`);

const NAMES: Readonly<Record<string, string>> = {
  '\u00a0': 'non-breaking space',
  '\u202f': 'narrow non-breaking space',
  '\u2009': 'thin space',
  '\u3000': 'wide space',
  '\u00ad': 'soft hyphen',
  '\u200b': 'zero-width space',
  '\u200c': 'zero-width sign',
  '\u200d': 'zero-width sign',
  '\u2060': 'zero-width sign',
  '\ufeff': 'byte order mark',
};

interface OddSpaces {
  /** Read as spaces, or as line feeds where nothing is seen before a key. */
  readonly blanks: Blank[];
  readonly problems: Problem[];
}

/** Whether lines hold a character that YAML takes for a letter where only blanks should stand. */
export function hasOddSpaces(lines: string): boolean {
  return ANY_ODD.test(lines) && oddPlaces(lines).length > 0;
}

/**
 * The characters of a text that look like spaces, or like nothing, and are letters to YAML, where only blanks should
 * stand. They come with text that was copied from a page or a document. Within words, quotes and comments they stay.
 */
export function readOddSpaces(file: string, text: string, most: number): OddSpaces {
  const places = ANY_ODD.test(text) ? oddPlaces(text) : [];
  const [first] = places;
  if (first === undefined) return { blanks: [], problems: [] };
  const blanks = places.map((start): Blank => ({ start, end: start + 1, with: ' ' }));
  return {
    // Of two for one place the first counts.
    blanks: [...leadBlanks(text, places), ...blanks],
    problems: [oddProblem(file, text, places, most)],
  };
}

function oddProblem(file: string, text: string, places: readonly number[], most: number): Problem {
  const [start = 0] = places;
  const sign = text[start] ?? '';
  const isSeen = SEEN.test(sign);
  const isMeant = isSpaceMeant(text, start);
  const todo = isMeant ? 'Write a space in its place.' : 'Delete it.';
  const name = NAMES[sign] ?? (isSeen ? 'space of another kind' : 'sign without a width');
  const code = numberOf(sign);
  const many = places.length > 1 ? ` (${places.length} such places in this file)` : '';
  return {
    code: 'yaml-syntax',
    message: isSeen
      ? `This looks like a space, but is a ${name} (${code})${many}, a letter to YAML. ${todo}`
      : `A ${name} (${code}) stands here${many}, which cannot be seen and is a letter to YAML. ${todo}`,
    at: { file, start, end: start + 1 },
    about: 'odd-space',
    fixes: places.length > most ? [] : [oddFix(file, text, places, isMeant)],
  };
}

function oddFix(file: string, text: string, places: readonly number[], isMeant: boolean): Fix {
  const edits = places.map((start) => ({
    at: { file, start, end: start + 1 },
    newText: isSpaceMeant(text, start) ? ' ' : '',
  }));
  if (places.length > 1) return { title: 'Use plain spaces in this file', edits };
  return { title: isMeant ? 'Write a space' : 'Delete it', edits };
}

/** Line by line, where there is an odd one that stands beside a sign or at an end of its line. */
function oddPlaces(text: string): number[] {
  const places: number[] = [];
  const next = new RegExp(ODD, 'g');
  next.lastIndex = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  for (let match = next.exec(text); match; match = next.exec(text)) {
    const from = next.lastIndex - 1;
    const { before, behind } = besideBlanks(text, match.index);
    next.lastIndex = behind;
    if (!/[\n:,{-]/.test(text[before] ?? '\n') && !/[\r\n#:,}\]]/.test(text[behind] ?? '\n')) continue;
    const start = text.lastIndexOf('\n', match.index) + 1;
    const feed = text.indexOf('\n', match.index);
    const end = feed < 0 ? text.length : feed;
    const line = text.slice(start, end).replace(/\r$/, '');
    for (const at of placesIn(line)) if (start + at >= from) places.push(start + at);
    next.lastIndex = end;
  }
  return places;
}

/** What stands before and behind the blanks around a place. */
function besideBlanks(text: string, at: number): { readonly before: number; readonly behind: number } {
  let before = at - 1;
  while (before >= 0 && IS_BLANK.test(text[before] ?? '')) before--;
  let behind = at + 1;
  while (behind < text.length && IS_BLANK.test(text[behind] ?? '')) behind++;
  return { before, behind };
}

/** Of one line, in their order. */
function placesIn(line: string): number[] {
  const bare = line.replace(QUOTED, (quote) => 'q'.repeat(quote.length)).replace(COMMENT, '');
  const places = new Set<number>();
  for (const between of BETWEEN)
    for (const { index, 0: blanks } of bare.matchAll(between))
      for (const odd of blanks.matchAll(EACH_ODD)) places.add(index + odd.index);
  for (let at = bare.length - 1; at >= 0 && IS_BLANK.test(bare[at] ?? ''); at--)
    if (ANY_ODD.test(bare[at] ?? '')) places.add(at);
  return [...places].sort((a, b) => a - b);
}

/** Where one that is seen stands between words, and not before a sign that none stands before. */
function isSpaceMeant(text: string, at: number): boolean {
  return SEEN.test(text[at] ?? '') && !/[\r\n:,]/.test(text[at + 1] ?? '\n');
}

/**
 * The depth of a line is that of the spaces that are seen. So as many line feeds as there are signs without a width
 * stand before these, in what begins the line, and all else stays at its place.
 */
function leadBlanks(text: string, places: readonly number[]): Blank[] {
  const starts = new Set<number>();
  const blanks: Blank[] = [];
  for (const place of places) {
    const feed = text.lastIndexOf('\n', place) + 1;
    const start = feed === 0 && text.charCodeAt(0) === 0xfeff ? 1 : feed;
    if (SEEN.test(text[place] ?? '') || starts.has(start)) continue;
    starts.add(start);
    const [lead = ''] = LEAD.exec(text.slice(start, start + MOST_LEAD)) ?? [];
    if (start + lead.length <= place) continue;
    const feeds = [...lead].filter((sign) => IS_NO_WIDTH.test(sign)).length;
    for (let at = 0; at < lead.length; at++)
      blanks.push({ start: start + at, end: start + at + 1, with: at < feeds ? '\n' : ' ' });
  }
  return blanks;
}
