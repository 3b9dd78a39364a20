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

/** What a change does to the starts of lines: some from `front` to `behind`, exclusive, give way to others; the rest moves. */
interface Recounted {
  readonly front: number;
  readonly behind: number;
  readonly between: readonly number[];
  readonly by: number;
}

/**
 * The offsets at which the new text's lines begin, from those of the old one; as `lineStartsOf` counts them. The very same
 * list where they are the same: most keys are of that kind.
 */
export function changedLineStarts(old: readonly number[], text: TextView, change: Change): readonly number[] {
  const { front, behind, between, by } = recounted(old, text, change);
  if (by === 0 && between.length === behind - front && between.every((one, at) => old[front + at] === one))
    return old;
  const starts = new Array<number>(front + between.length + old.length - behind);
  for (let index = 0; index < front; index++) starts[index] = old[index] ?? 0;
  for (let index = 0; index < between.length; index++) starts[front + index] = between[index] ?? 0;
  const shift = front + between.length - behind;
  for (let index = behind; index < old.length; index++) starts[index + shift] = (old[index] ?? 0) + by;
  return starts;
}

/** The same within the list, which no other text may have: for many changes at once. */
export function changeLineStarts(starts: number[], text: TextView, change: Change): void {
  const { front, behind, between, by } = recounted(starts, text, change);
  const tail = between.length === behind - front ? undefined : starts.splice(behind);
  if (tail) starts.length = front;
  for (let index = 0; index < between.length; index++) starts[front + index] = between[index] ?? 0;
  if (tail) for (const start of tail) starts.push(start + by);
  else if (by !== 0)
    for (let index = behind; index < starts.length; index++) starts[index] = (starts[index] ?? 0) + by;
}

function recounted(old: readonly number[], text: TextView, change: Change): Recounted {
  const by = change.newEnd - change.oldEnd;
  const kept = countBelow(old, change.start);
  const from = old[kept - 1] ?? 0;
  const behind = countBelow(old, change.oldEnd + 1);
  const until = behind < old.length ? (old[behind] ?? 0) + by - 1 : text.length;
  // The end of the last line is looked at with it, so that a carriage return before a feed is not one alone.
  const between: number[] = [];
  for (const start of lineStartsOf(text.slice(from, until + 1)))
    if (start > 0 && from + start <= until) between.push(from + start);
  return { front: Math.max(1, kept), behind, between, by };
}

/** How many of the rising numbers are below a limit: the place of the first that is not. */
export function countBelow(rising: readonly number[], limit: number): number {
  let low = 0;
  let high = rising.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((rising[middle] ?? 0) < limit) low = middle + 1;
    else high = middle;
  }
  return low;
}
