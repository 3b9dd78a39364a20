/** The one stretch in which two texts differ: before and behind it they are the same. UTF-16 code units. */
export interface Change {
  readonly start: number;
  /** Where it ends in the old text, exclusive. */
  readonly oldEnd: number;
  /** Where it ends in the new text, exclusive. */
  readonly newEnd: number;
}

/** Texts are compared by blocks of this size first, which an engine does at the speed of memory. */
const BLOCK = 4096;

export function changeBetween(before: string, after: string): Change {
  const most = Math.min(before.length, after.length);
  let start = 0;
  while (start + BLOCK <= most && sameBlock(before, start, after, start)) start += BLOCK;
  while (start < most && before.charCodeAt(start) === after.charCodeAt(start)) start++;
  let oldEnd = before.length;
  let newEnd = after.length;
  const left = () => Math.min(oldEnd, newEnd) - start;
  while (left() >= BLOCK && sameBlock(before, oldEnd - BLOCK, after, newEnd - BLOCK)) {
    oldEnd -= BLOCK;
    newEnd -= BLOCK;
  }
  while (left() > 0 && before.charCodeAt(oldEnd - 1) === after.charCodeAt(newEnd - 1)) {
    oldEnd--;
    newEnd--;
  }
  return { start, oldEnd, newEnd };
}

function sameBlock(a: string, aStart: number, b: string, bStart: number): boolean {
  return a.slice(aStart, aStart + BLOCK) === b.slice(bStart, bStart + BLOCK);
}

/** What sets a text apart from one that is read as it stands: see `normalText`. */
// biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
const UNUSUAL = /[\0-\x09\x0b-\x0c\x0e-\x1f\x7f\ufeff]|\r(?!\n)|^(?:<<<<<<<|---|\.\.\.|%)/m;

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
  const starts = old.slice(0, Math.max(1, kept));
  for (let index = from; index < until; index++) {
    const code = text.charCodeAt(index);
    if (code === 10 || (code === 13 && text.charCodeAt(index + 1) !== 10)) starts.push(index + 1);
  }
  for (let index = behind; index < old.length; index++) starts.push((old[index] ?? 0) + by);
  return starts;
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
