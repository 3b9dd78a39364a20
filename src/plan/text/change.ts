import { lineStartsOf } from '../lines';

/** The one stretch in which two texts differ: before and behind it they are the same. UTF-16 code units. */
export interface Change {
  readonly start: number;
  /** Where it ends in the old text, exclusive. */
  readonly oldEnd: number;
  /** Where it ends in the new text, exclusive. */
  readonly newEnd: number;
}

/** Texts are compared by blocks of these sizes, which an engine does at the speed of memory, and then by characters. */
const BLOCKS = [4096, 256, 16, 1] as const;

export function changeBetween(before: string, after: string): Change {
  const most = Math.min(before.length, after.length);
  let start = 0;
  for (const block of BLOCKS)
    while (start + block <= most && isSame(before, start, after, start, block)) start += block;
  let same = 0;
  for (const block of BLOCKS)
    while (
      start + same + block <= most &&
      isSame(before, before.length - same - block, after, after.length - same - block, block)
    )
      same += block;
  return { start, oldEnd: before.length - same, newEnd: after.length - same };
}

function isSame(a: string, aStart: number, b: string, bStart: number, length: number): boolean {
  if (length === 1) return a.charCodeAt(aStart) === b.charCodeAt(bStart);
  return a.slice(aStart, aStart + length) === b.slice(bStart, bStart + length);
}

/** What sets a text apart from one that is read as it stands: see `normalText`. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const UNUSUAL = /[\0-\x09\x0b-\x0c\x0e-\x1f\x7f\ufeff\ufffd]|\r(?!\n)|^(?:<<<<<<<|---|\.\.\.|%)/m;

/**
 * Whether a text that was read as it stood can still be: nothing unusual stands in the changed lines. The line before
 * and the one behind are looked at too, for what a change brings together.
 */
export function staysUsual(text: string, { start, newEnd }: Change): boolean {
  const from = start <= 1 ? 0 : text.lastIndexOf('\n', start - 2) + 1;
  const feed = text.indexOf('\n', newEnd);
  const lines = text.slice(from, feed < 0 ? text.length : feed + 1);
  return !UNUSUAL.test(lines);
}

/** The offsets at which the new text's lines begin, from those of the old one; as `lineStartsOf` counts them. */
export function changedLineStarts(old: readonly number[], text: string, change: Change): number[] {
  const by = change.newEnd - change.oldEnd;
  const kept = countBelow(old, change.start);
  const from = old[kept - 1] ?? 0;
  const behind = countBelow(old, change.oldEnd + 1);
  const until = behind < old.length ? (old[behind] ?? 0) + by - 1 : text.length;
  // The end of the last line is looked at with it, so that a carriage return before a feed is not one alone.
  const between: number[] = [];
  for (const start of lineStartsOf(text.slice(from, until + 1)))
    if (start > 0 && from + start <= until) between.push(from + start);
  const after = old.slice(behind);
  if (by !== 0) for (let index = 0; index < after.length; index++) after[index] = (after[index] ?? 0) + by;
  return old.slice(0, Math.max(1, kept)).concat(between, after);
}

/** How many of the rising numbers are below a limit. */
function countBelow(rising: readonly number[], limit: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rising[middle] ?? 0) < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
