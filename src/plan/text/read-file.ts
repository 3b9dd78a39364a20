import { lineStartsOf } from '../lines';
import type { Problem } from '../problem';
import type { Span } from '../span';
import { changeBetween, staysUsual } from './change';
import { type Change, changedLineStarts } from './changed-lines';
import { EditedText } from './edited-text';
import { headingAgain } from './heading-again';
import type { ChunkChange, FileReading, ReadChunk } from './kept-reading';
import { MOST_LINES, MOST_TEXT, normalText } from './normal';
import { type ChunkOptions, readChunkAt } from './read-chunk';
import { ReadText } from './read-text';
import { replacedBy, withSameFields } from './same-fields';
import { type Chunk, split } from './split';
import { besideTabs } from './tabs';
import { splitAgain, takenOver } from './take-over';
import type { TextView } from './text-view';

/** Behind this many problems in a file no more are put into words. */
const MOST_BEFORE_BRIEF = 1000;
/** Fewer chunks than these are held each by itself, whatever part of the text they are. */
const MANY_FRESH = 100;

/** A reading, and how it differs from the last one where that is known. */
export interface ReadAgain {
  readonly reading: FileReading;
  readonly change: ChunkChange | undefined;
}

/**
 * Reads a file, taking from the last reading what has not changed. Where the reading is to be `kept`, what is taken
 * over by a later one moves with the text.
 */
export function readFile(
  path: string,
  text: TextView,
  last: FileReading | undefined,
  kept: boolean,
): ReadAgain {
  if (last?.file.view === text) return { reading: last, change: undefined };
  if (!last?.isRead) return { reading: readWhole(path, text, kept), change: undefined };
  const change = changeBetween(last.file.view, text);
  if (change.start === Math.max(change.oldEnd, change.newEnd)) return { reading: last, change: undefined };
  const lineStarts = stillUsual(last, text, change);
  const again =
    lineStarts && (readWithin(last, text, lineStarts, change) ?? readHeading(last, text, lineStarts, change));
  if (again) return again;
  const reading = readWhole(path, text, kept, { last, lineStarts });
  return { reading, change: reading.isRead ? withoutSame(0, last.chunks, reading.chunks) : undefined };
}

/** The reading of a whole text; with the last one of what has changed, and with the lines' starts where it is usual still. */
function readWhole(
  path: string,
  view: TextView,
  kept: boolean,
  since?: { readonly last: FileReading; readonly lineStarts: readonly number[] | undefined },
): FileReading {
  const text = view.toString();
  const usual = since?.lineStarts;
  const normal = usual ? { text, problems: [], tabs: [] } : normalText(path, text);
  if (normal.text === undefined) return unread(path, view, normal.problems);
  const isUsual = normal.text === text && normal.problems.length === 0;
  const lineStarts = usual ?? startsOf(view);
  // What is unusual may be a carriage return alone, which ends no line as far as YAML is concerned.
  const parts = split(path, normal.text, isUsual ? lineStarts : undefined);
  const { chunks, problems } = besideTabs(normal.text, parts, normal.tabs);
  const old = since?.last.chunks ?? [];
  const known = since ? takenOver(normal.text, chunks, since.last.normal, old) : [];
  const options = { kept, isAlone: kept && since !== undefined };
  const read = readChunks(path, normal.text, { chunks, known, old }, options);
  return {
    file: new ReadText(path, view, lineStarts),
    isRead: true,
    normal: normal.text,
    isUsual,
    problems: [...normal.problems, ...problems],
    chunks: read,
    told: problemsIn(read),
  };
}

/** The starts of a text's lines where it can be read as it stands, as could the last one; else undefined. */
function stillUsual(last: FileReading, text: TextView, change: Change): readonly number[] | undefined {
  if (!last.isUsual || text.length > MOST_TEXT || !staysUsual(text, change)) return undefined;
  const lineStarts =
    text instanceof EditedText ? text.lineStarts : changedLineStarts(last.file.lineStarts, text, change);
  return lineStarts.length > MOST_LINES ? undefined : lineStarts;
}

/**
 * The reading after a change within the entries of one section, which leaves all other chunks as they were.
 * Undefined where the change reaches further.
 */
function readWithin(
  last: FileReading,
  text: TextView,
  lineStarts: readonly number[],
  change: Change,
): ReadAgain | undefined {
  if (last.told > MOST_BEFORE_BRIEF || last.problems.length > 0) return undefined;
  const stretch = splitAgain(text, last, change);
  if (!stretch) return undefined;
  const { first, behind } = stretch;
  const { path } = last.file;
  const old = last.chunks.slice(first, behind);
  const known = takenOver(text, stretch.chunks, last.normal, old);
  const stretched = { chunks: stretch.chunks, known, old };
  const read = readChunks(path, text, stretched, { kept: true, isAlone: true });
  const told = last.told + problemsIn(read) - problemsIn(old);
  if (told > MOST_BEFORE_BRIEF) return undefined;
  const chunks = last.chunks.slice(0, first).concat(read, last.chunks.slice(behind));
  moveBehind(chunks, first + read.length, change);
  return {
    reading: { ...last, file: new ReadText(path, text, lineStarts), normal: text, chunks, told },
    change: withoutSame(first, old, read),
  };
}

/** The reading after a change within a section's heading, below which all entries stay. Undefined where it reaches further. */
function readHeading(
  last: FileReading,
  text: TextView,
  lineStarts: readonly number[],
  change: Change,
): ReadAgain | undefined {
  const heading = last.told > MOST_BEFORE_BRIEF ? undefined : headingAgain(text, last, change);
  const before = heading && last.chunks[heading.index];
  if (!before) return undefined;
  const { index, chunk, problems } = heading;
  const { path } = last.file;
  const after = readChunkAt(path, text, chunk, { brief: false, kept: true, isAlone: true });
  const chunks = last.chunks.with(index, after);
  moveBehind(chunks, index + 1, change);
  const told = last.told + problemsIn([after]) - problemsIn([before]);
  return {
    reading: { ...last, file: new ReadText(path, text, lineStarts), normal: text, problems, chunks, told },
    change: { index, before: [before], after: [after] },
  };
}

function startsOf(text: TextView): readonly number[] {
  return text instanceof EditedText ? text.lineStarts : lineStartsOf(text.toString());
}

/** Moves the chunks behind a change with the text. */
function moveBehind(chunks: readonly ReadChunk[], from: number, { oldEnd, newEnd }: Change): void {
  if (newEnd !== oldEnd)
    for (let index = from; index < chunks.length; index++) moveBy(chunks[index], newEnd - oldEnd);
}

function problemsIn(chunks: readonly ReadChunk[]): number {
  return chunks.reduce((sum, { placed }) => sum + placed.problems.length, 0);
}

function moveBy(read: ReadChunk | undefined, by: number): void {
  if (!read) return;
  const { parent, start, end, indent, heading } = read.chunk;
  const moved = heading && { name: heading.name, start: heading.start + by, end: heading.end + by };
  read.chunk = { parent, start: start + by, end: end + by, indent, heading: moved };
  read.place.moveTo(read.chunk.start);
}

/** The chunks that differ, those that are the same at both ends left out. */
function withoutSame(first: number, before: readonly ReadChunk[], after: readonly ReadChunk[]): ChunkChange {
  const most = Math.min(before.length, after.length);
  let front = 0;
  while (front < most && before[front] === after[front]) front++;
  let back = 0;
  while (back < most - front && before.at(-1 - back) === after.at(-1 - back)) back++;
  return {
    index: first + front,
    before: before.slice(front, before.length - back),
    after: after.slice(front, after.length - back),
  };
}

interface ToRead {
  readonly chunks: readonly Chunk[];
  /** For each of them the reading that is taken over, where there is one. */
  readonly known: readonly (ReadChunk | undefined)[];
  /** Those of the last time in whose place they stand. */
  readonly old: readonly ReadChunk[];
}

function readChunks(
  path: string,
  text: TextView,
  { chunks, known, old }: ToRead,
  { kept, isAlone }: Omit<ChunkOptions, 'brief'>,
): ReadChunk[] {
  const replaced = old.length > 0 ? replacedBy(old, known) : undefined;
  const whole = { brief: false, kept, isAlone: isAlone && !isMostNew(known) };
  const briefly = { brief: true, kept, isAlone: false };
  const readings: ReadChunk[] = new Array<ReadChunk>(chunks.length);
  let told = 0;
  for (let index = 0; index < chunks.length; index++) {
    const chunk = chunks[index] as Chunk;
    const brief = told > MOST_BEFORE_BRIEF;
    let read = brief ? undefined : known[index];
    if (read) {
      read.place.moveTo(chunk.start);
      read.chunk = chunk;
    } else {
      read = readChunkAt(path, text, chunk, brief ? briefly : whole);
      if (replaced) read = withSameFields(read, replaced);
    }
    told += read.placed.problems.length;
    readings[index] = read;
  }
  return readings;
}

/** Whether most of a text is read anew: then it is held once as it is, and not a copy for each chunk. */
function isMostNew(known: ToRead['known']): boolean {
  let fresh = 0;
  for (let index = 0; index < known.length; index++) if (!known[index]) fresh++;
  return fresh > MANY_FRESH && fresh * 2 > known.length;
}

function unread(path: string, text: TextView, problems: readonly Problem[]): FileReading {
  return {
    // A file of this kind has problems at its start only; its lines are not counted.
    file: new ReadText(path, text, [0]),
    isRead: false,
    normal: '',
    isUsual: false,
    problems,
    chunks: [],
    told: 0,
  };
}

/** All problems of a file by itself, and how many were found beyond those that were put into words. */
export function problemsOf({ problems, chunks }: FileReading): { told: Problem[]; unsaid: number } {
  const told = [...problems];
  let unsaid = 0;
  for (const { placed } of chunks) {
    for (const problem of placed.problems) told.push(problem);
    unsaid += placed.unsaid;
  }
  return { told: told.concat(openedTwice(chunks)), unsaid };
}

/** A section that a file opens twice. Its entries are all read. */
function openedTwice(chunks: readonly ReadChunk[]): Problem[] {
  const first = new Map<string, Span>();
  const problems: Problem[] = [];
  for (const { placed } of chunks)
    for (const { name, at } of placed.sections) {
      const before = first.get(name);
      // Those that stand once in a plan are told with those of other files.
      if (before && name !== 'season' && name !== 'packing' && name !== 'policy')
        problems.push({
          code: 'duplicate-key',
          message: `\`${name}\` stands twice in this file. Put all that belongs to it under one.`,
          at,
          related: [{ at: before, message: 'It stands here first' }],
          about: name,
        });
      else if (!before) first.set(name, at);
    }
  return problems;
}

/** The version of the plan language that the file says first. */
export function versionOf({ chunks }: FileReading) {
  for (const { placed } of chunks) if (placed.version) return placed.version;
  return undefined;
}
