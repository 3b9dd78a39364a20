import { lineStartsOf } from '../lines';
import type { TextView } from './text-view';

/** The one stretch in which two texts differ: before and behind it they are the same. UTF-16 code units. */
export interface Change {
  readonly start: number;
  /** Where it ends in the old text, exclusive. */
  readonly oldEnd: number;
  /** Where it ends in the new text, exclusive. */
  readonly newEnd: number;
}

/** The offsets at which the new text's lines begin, from those of the old one; as `lineStartsOf` counts them. */
export function changedLineStarts(old: readonly number[], text: TextView, change: Change): readonly number[] {
  const by = change.newEnd - change.oldEnd;
  const kept = countBelow(old, change.start);
  const from = old[kept - 1] ?? 0;
  const behind = countBelow(old, change.oldEnd + 1);
  const until = behind < old.length ? (old[behind] ?? 0) + by - 1 : text.length;
  // The end of the last line is looked at with it, so that a carriage return before a feed is not one alone.
  const between: number[] = [];
  for (const start of lineStartsOf(text.slice(from, until + 1)))
    if (start > 0 && from + start <= until) between.push(from + start);
  const front = Math.max(1, kept);
  if (by === 0 && between.length === behind - front) return sameOr(old, front, between);
  const starts = new Array<number>(front + between.length + old.length - behind);
  for (let index = 0; index < front; index++) starts[index] = old[index] ?? 0;
  for (let index = 0; index < between.length; index++) starts[front + index] = between[index] ?? 0;
  const shift = front + between.length - behind;
  for (let index = behind; index < old.length; index++) starts[index + shift] = (old[index] ?? 0) + by;
  return starts;
}

/** The very same list where as many lines begin at the same places as before: most keys are of that kind. */
function sameOr(old: readonly number[], front: number, between: readonly number[]): readonly number[] {
  const isSame = between.every((start, index) => old[front + index] === start);
  return isSame ? old : old.toSpliced(front, between.length, ...between);
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
