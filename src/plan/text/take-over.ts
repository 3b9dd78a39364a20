import { isEntrySection } from '../check/item-kinds';
import type { Change } from './changed-lines';
import type { FileReading, ReadChunk } from './kept-reading';
import { type Chunk, splitEntries } from './split';
import type { TextView } from './text-view';

/**
 * For each chunk of a new text the reading of the same words by the last time, where there is one. Chunks before and
 * behind a change are found by their order, the others by their words. None is given twice.
 */
export function takenOver(
  text: TextView,
  chunks: readonly Chunk[],
  oldText: TextView,
  old: readonly ReadChunk[],
): (ReadChunk | undefined)[] {
  const found = new Array<ReadChunk | undefined>(chunks.length).fill(undefined);
  const most = Math.min(old.length, chunks.length);
  const same = (chunk: Chunk | undefined, read: ReadChunk | undefined) =>
    chunk !== undefined && read !== undefined && saysTheSame(text, chunk, oldText, read);
  let front = 0;
  while (front < most && same(chunks[front], old[front])) {
    found[front] = old[front];
    front++;
  }
  let [newEnd, oldEnd] = [chunks.length, old.length];
  while (newEnd > front && oldEnd > front && same(chunks[newEnd - 1], old[oldEnd - 1])) {
    newEnd--;
    oldEnd--;
    found[newEnd] = old[oldEnd];
  }
  if (newEnd === front || oldEnd === front) return found;
  // Their words are put together only where one of that length is to be found.
  const lengths = new Set<number>();
  for (let index = front; index < newEnd; index++) lengths.add(lengthOf(chunks[index]));
  const byWords = new Map<string, ReadChunk[]>();
  for (let index = front; index < oldEnd; index++) {
    const read = old[index];
    if (!read || read.brief || !lengths.has(lengthOf(read.chunk))) continue;
    const words = wordsOf(oldText, read.chunk);
    const alike = byWords.get(words);
    if (alike) alike.push(read);
    else byWords.set(words, [read]);
  }
  if (byWords.size === 0) return found;
  for (let index = front; index < newEnd; index++) {
    const chunk = chunks[index];
    if (chunk) found[index] = byWords.get(wordsOf(text, chunk))?.shift();
  }
  return found;
}

function lengthOf(chunk: Chunk | undefined): number {
  return chunk ? chunk.end - chunk.start : -1;
}

function saysTheSame(
  text: TextView,
  chunk: Chunk,
  oldText: TextView,
  { chunk: old, brief }: ReadChunk,
): boolean {
  return (
    !brief &&
    lengthOf(chunk) === lengthOf(old) &&
    chunk.parent === old.parent &&
    chunk.tabs === old.tabs &&
    headingStart(chunk) === headingStart(old) &&
    text.slice(chunk.start, chunk.end) === oldText.slice(old.start, old.end)
  );
}

function headingStart({ heading, start }: Chunk): number {
  return heading ? heading.start - start : -1;
}

function wordsOf(text: TextView, chunk: Chunk): string {
  return `${chunk.parent}${headingStart(chunk)}${chunk.tabs ?? ''}:${text.slice(chunk.start, chunk.end)}`;
}

/** Chunks that stand in place of those from `first` to `behind`, exclusive, of the last reading. */
export interface Stretch {
  readonly first: number;
  readonly behind: number;
  readonly chunks: readonly Chunk[];
}

/**
 * What a change within the entries of one section leaves: the entries it touches, with the one before and the one
 * behind, are split again. Undefined where that would not give what splitting the whole text gives.
 */
export function splitAgain(text: TextView, last: FileReading, change: Change): Stretch | undefined {
  const old = last.chunks;
  const first = indexAt(old, Math.max(0, change.start - 1)) - 1;
  const end = indexAt(old, change.oldEnd) + 1;
  const [before, after] = [old[first]?.chunk, old[end]?.chunk];
  if (!before || !after || !isEntrySection(before.parent)) return undefined;
  const { parent, indent } = before;
  for (let index = first; index <= end; index++) {
    const chunk = old[index]?.chunk;
    if (!chunk || chunk.heading || chunk.parent !== parent || chunk.indent !== indent) return undefined;
  }
  const by = change.newEnd - change.oldEnd;
  const again = splitEntries(text.slice(before.start, after.end + by), parent, indent);
  const [head, tail] = [again?.[0], again?.at(-1)];
  if (!again || !head || !tail || again.length < 2) return undefined;
  if (head.end !== before.end - before.start) return undefined;
  if (tail.end - tail.start !== after.end - after.start) return undefined;
  const chunks = again.map((chunk) => ({
    ...chunk,
    start: chunk.start + before.start,
    end: chunk.end + before.start,
  }));
  return { first, behind: end + 1, chunks };
}

/** The chunk that holds the offset. Chunks may leave lines between them out: then the one before. */
export function indexAt(chunks: readonly ReadChunk[], offset: number): number {
  let low = 0;
  let high = chunks.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((chunks[middle]?.chunk.start ?? 0) <= offset) low = middle;
    else high = middle - 1;
  }
  return low;
}
