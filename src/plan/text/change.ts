import type { Change } from './changed-lines';
import { EditedText } from './edited-text';
import { hasOddSpaces } from './odd-spaces';
import type { TextView } from './text-view';

/** Texts are compared by blocks of these sizes, which an engine does at the speed of memory, and then by characters. */
const BLOCKS = [4096, 256, 16, 1] as const;

export function changeBetween(before: TextView, after: TextView): Change {
  const most = Math.min(before.length, after.length);
  // What one was made of the other by is known without a look at the rest.
  const { front, back } =
    before instanceof EditedText && after instanceof EditedText
      ? before.sameEnds(after)
      : { front: 0, back: 0 };
  let start = front;
  for (const block of BLOCKS)
    while (start + block <= most && isSame(before, start, after, start, block)) start += block;
  let same = Math.min(back, most - start);
  for (const block of BLOCKS)
    while (
      start + same + block <= most &&
      isSame(before, before.length - same - block, after, after.length - same - block, block)
    )
      same += block;
  return { start, oldEnd: before.length - same, newEnd: after.length - same };
}

function isSame(a: TextView, aStart: number, b: TextView, bStart: number, length: number): boolean {
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
export function staysUsual(text: TextView, { start, newEnd }: Change): boolean {
  const from = start <= 1 ? 0 : text.lastIndexOf('\n', start - 2) + 1;
  const feed = text.indexOf('\n', newEnd);
  const lines = text.slice(from, feed < 0 ? text.length : feed + 1);
  return !UNUSUAL.test(lines) && !hasOddSpaces(lines);
}
