import { type BuiltItem, buildItem } from '../build/build-item';
import { type ChunkPlace, spanAt } from '../build/places';
import { lineStartsOf } from '../lines';
import type { Allowance, PlanText, Reference } from '../model';
import type { Problem } from '../problem';
import type { Span } from '../span';
import { type Change, changeBetween, changedLineStarts, staysUsual } from './change';
import { type ChunkReading, readChunk, readHeading } from './chunk';
import type { AllowComment } from './comments';
import type { KeptReading, PlacedChunk, ReadChunk } from './kept-reading';
import { MovingPlace } from './moving-place';
import { isEmpty } from './nodes';
import { MOST_LINES, MOST_TEXT, normalText } from './normal';
import { placedProblem } from './place-problem';
import { type Chunk, split } from './split';
import { splitAgain, takenOver } from './take-over';

/** Behind this many problems in a file no more are put into words. */
const MOST_BEFORE_BRIEF = 1000;

/** A file as read by itself. */
export interface FileReading {
  readonly file: PlanText;
  /** In the order of the text. */
  readonly items: readonly BuiltItem[];
  readonly problems: readonly Problem[];
  /** Problems found beyond those that were put into words. */
  readonly unsaid: number;
  readonly references: readonly Reference[];
  readonly allowances: readonly Allowance[];
  /** The language version, where the file says one. */
  readonly version: { readonly value: unknown; readonly raw: string; readonly at: Span } | undefined;
  /** False where the file's text is not to be read at all. */
  readonly isRead: boolean;
  /** What the next reading may take over; undefined where nothing is kept. */
  readonly kept: KeptReading | undefined;
}

/**
 * Reads a file, taking from the last reading what has not changed. Where the reading is to be `kept`, what is taken
 * over by a later one moves with the text.
 */
export function readFile(
  path: string,
  text: string,
  last: FileReading | undefined,
  kept: boolean,
): FileReading {
  if (last && last.file.text === text) return last;
  const change = last?.kept && changeBetween(last.file.text, text);
  const lineStarts =
    last && change ? changedLineStarts(last.file.lineStarts, text, change) : lineStartsOf(text);
  const normal = normalised(path, text, lineStarts.length, last?.kept, change);
  if (normal.text === undefined) return unread(path, text, normal.problems);
  const local = normal.isUsual && change ? splitAgain(normal.text, last?.kept, change) : undefined;
  const { chunks, problems } = local ? { chunks: local, problems: [] } : split(path, normal.text);
  const read = readChunks(path, normal.text, chunks, last?.kept, kept);
  const placed = read.map((one) => one.placed);
  return {
    file: { path, text, lineStarts },
    items: joined(placed, ({ items }) => items),
    problems: [
      ...normal.problems,
      ...problems,
      ...joined(placed, (chunk) => chunk.problems),
      ...openedTwice(placed),
    ],
    unsaid: placed.reduce((sum, chunk) => sum + chunk.unsaid, 0),
    references: joined(placed, ({ references }) => references),
    allowances: joined(placed, ({ allowances }) => allowances),
    version: versionIn(path, read),
    isRead: true,
    kept: kept
      ? { normal: normal.text, isUsual: normal.isUsual && problems.length === 0, chunks: read }
      : undefined,
  };
}

/** `flatMap` without an array for each chunk: there are thousands at every key. */
function joined<T>(chunks: readonly PlacedChunk[], of: (chunk: PlacedChunk) => readonly T[]): T[] {
  const all: T[] = [];
  for (const chunk of chunks) for (const one of of(chunk)) all.push(one);
  return all;
}

/** The text made fit for reading. One that was fit as it stood is looked at only where it has changed. */
function normalised(
  path: string,
  text: string,
  lines: number,
  last: KeptReading | undefined,
  change: Change | undefined,
) {
  const isShort = text.length <= MOST_TEXT && lines <= MOST_LINES;
  if (last?.isUsual && change && isShort && staysUsual(text, change))
    return { text, problems: [], isUsual: true };
  const normal = normalText(path, text);
  return { ...normal, isUsual: normal.text === text && normal.problems.length === 0 };
}

function readChunks(
  path: string,
  text: string,
  chunks: readonly Chunk[],
  last: KeptReading | undefined,
  kept: boolean,
): ReadChunk[] {
  const known = last ? takenOver(text, chunks, last) : [];
  let told = 0;
  return chunks.map((chunk, index) => {
    const brief = told > MOST_BEFORE_BRIEF;
    const before = brief ? undefined : known[index];
    const read = before ?? readNew(path, text, chunk, brief, kept);
    read.place.moveTo(chunk.start);
    read.chunk = chunk;
    told += read.placed.problems.length;
    return read;
  });
}

function readNew(path: string, text: string, chunk: Chunk, brief: boolean, kept: boolean): ReadChunk {
  const written = text.slice(chunk.start, chunk.end);
  const reading = readAfresh(chunk, brief || !kept ? written : ownCopy(written), brief);
  const place = new MovingPlace(path, chunk.start, kept && !brief);
  return { chunk, reading, place, placed: placeChunk(place, reading), brief };
}

/** The version the file says first. */
function versionIn(file: string, read: readonly ReadChunk[]): FileReading['version'] {
  for (const { chunk, reading } of read) {
    const pair = reading.version;
    if (!pair) continue;
    const at = spanAt({ file, offset: chunk.start }, isEmpty(pair.value) ? pair.key : pair.value);
    const value = pair.value.kind === 'scalar' ? pair.value : undefined;
    return { value: value?.value, raw: value?.raw ?? '', at };
  }
  return undefined;
}

function unread(path: string, text: string, problems: readonly Problem[]): FileReading {
  return {
    // A file of this kind has problems at its start only; its lines are not counted.
    file: { path, text, lineStarts: [0] },
    items: [],
    problems,
    unsaid: 0,
    references: [],
    allowances: [],
    version: undefined,
    isRead: false,
    kept: undefined,
  };
}

function readAfresh({ parent, heading, start }: Chunk, text: string, brief: boolean): ChunkReading {
  return heading ? readHeading(text, heading.name, heading.start - start) : readChunk(parent, text, brief);
}

/** A string of its own: a slice would keep the whole text it was cut from in memory, one for each edit. */
function ownCopy(text: string): string {
  return JSON.parse(JSON.stringify(text)) as string;
}

function placeChunk(place: ChunkPlace, reading: ChunkReading): PlacedChunk {
  const moved = (span: Span): Span => spanAt(place, span);
  return {
    items: reading.items.map((item) => buildItem(item, place)),
    problems: [
      ...reading.problems.map((problem) => placedProblem(problem, place)),
      ...withoutReason(reading, moved),
    ],
    unsaid: reading.unsaid,
    references: reading.items.flatMap(({ kind, key, references }) =>
      references.map((reference) => ({
        ...reference,
        at: moved(reference.at),
        ...(kind === 'scenarios' && { scenario: key.name }),
      })),
    ),
    allowances: reading.comments.flatMap((comment) => allowance(comment, moved)),
    sections: reading.sections.map((key) => ({ name: key.name, at: spanAt(place, key) })),
  };
}

function allowance({ start, end, allows, covers }: AllowComment, moved: (span: Span) => Span): Allowance[] {
  if (!allows) return [];
  return [{ ...allows, at: moved({ file: '', start, end }), covers: moved({ file: '', ...covers }) }];
}

function withoutReason({ comments }: ChunkReading, moved: (span: Span) => Span): Problem[] {
  return comments
    .filter(({ allows }) => !allows)
    .map(({ start, end }) => ({
      code: 'allowance-without-reason',
      message:
        "This comment allows nothing: it needs a finding's code and a reason, as in `# lotwright: allow room-partly-filled -- held back for late fruit`.",
      at: moved({ file: '', start, end }),
      about: 'comment',
    }));
}

/** A section that a file opens twice. Its entries are all read. */
function openedTwice(placed: readonly PlacedChunk[]): Problem[] {
  const first = new Map<string, Span>();
  const problems: Problem[] = [];
  for (const { name, at } of joined(placed, ({ sections }) => sections)) {
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
