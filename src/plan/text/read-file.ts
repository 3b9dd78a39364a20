import { type BuiltItem, buildItem } from '../build/build-item';
import { spanAt } from '../build/places';
import { lineStartsOf } from '../lines';
import type { Allowance, PlanText, Reference } from '../model';
import type { Problem } from '../problem';
import type { Span } from '../span';
import { type ChunkReading, readChunk, readHeading } from './chunk';
import type { AllowComment } from './comments';
import { isEmpty } from './nodes';
import { normalText } from './normal';
import { placedProblem } from './place-problem';
import { type Chunk, split } from './split';

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
  /** The chunks' readings by parent and text, for the next reading. */
  readonly chunks: ReadonlyMap<string, CachedChunk>;
}

/** What a chunk says, and what that is at the place where it stood last. */
interface CachedChunk {
  readonly reading: ChunkReading;
  placed: PlacedChunk;
}

interface PlacedChunk {
  readonly offset: number;
  readonly items: readonly BuiltItem[];
  readonly problems: readonly Problem[];
  readonly unsaid: number;
  readonly references: readonly Reference[];
  readonly allowances: readonly Allowance[];
  readonly sections: readonly { readonly name: string; readonly at: Span }[];
}

/** Reads a file, taking from the last reading what has not changed. */
export function readFile(path: string, text: string, last: FileReading | undefined): FileReading {
  if (last && last.file.text === text) return last;
  const normal = normalText(path, text);
  if (normal.text === undefined) return unread(path, text, normal.problems);
  const { chunks, problems } = split(path, normal.text);
  const cached = new Map<string, CachedChunk>();
  const placed: PlacedChunk[] = [];
  let version: FileReading['version'];
  let told = 0;
  for (const chunk of chunks) {
    const brief = told > MOST_BEFORE_BRIEF;
    const found = readCached(path, normal.text, chunk, last?.chunks, brief);
    if (!brief) cached.set(found.key, found.cached);
    placed.push(found.cached.placed);
    told += found.cached.placed.problems.length;
    const pair = found.cached.reading.version;
    if (pair && !version) {
      const at = spanAt({ file: path, offset: chunk.start }, isEmpty(pair.value) ? pair.key : pair.value);
      const value = pair.value.kind === 'scalar' ? pair.value : undefined;
      version = { value: value?.value, raw: value?.raw ?? '', at };
    }
  }
  return {
    file: { path, text, lineStarts: lineStartsOf(text) },
    items: placed.flatMap(({ items }) => items),
    problems: [
      ...normal.problems,
      ...problems,
      ...placed.flatMap((chunk) => chunk.problems),
      ...openedTwice(placed),
    ],
    unsaid: placed.reduce((sum, chunk) => sum + chunk.unsaid, 0),
    references: placed.flatMap(({ references }) => references),
    allowances: placed.flatMap(({ allowances }) => allowances),
    version,
    isRead: true,
    chunks: cached,
  };
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
    chunks: new Map(),
  };
}

function readCached(
  path: string,
  text: string,
  chunk: Chunk,
  last: FileReading['chunks'] | undefined,
  brief: boolean,
) {
  const { heading, start } = chunk;
  const written = text.slice(start, chunk.end);
  const key = `${chunk.parent}${heading ? '#' : ':'}${written}`;
  // A brief reading leaves things out: it neither uses nor leaves anything for the next time.
  const before = brief ? undefined : last?.get(key);
  if (before?.placed.offset === start) return { key, cached: before };
  const reading = before?.reading ?? readAfresh(chunk, brief ? written : ownCopy(written), brief);
  const cached: CachedChunk = { reading, placed: placeChunk(path, start, reading) };
  return { key: brief ? key : ownCopy(key), cached };
}

function readAfresh({ parent, heading, start }: Chunk, text: string, brief: boolean): ChunkReading {
  return heading ? readHeading(text, heading.name, heading.start - start) : readChunk(parent, text, brief);
}

/** A string of its own: a slice would keep the whole text it was cut from in memory, one for each edit. */
function ownCopy(text: string): string {
  return JSON.parse(JSON.stringify(text)) as string;
}

function placeChunk(file: string, offset: number, reading: ChunkReading): PlacedChunk {
  const place = { file, offset };
  const moved = ({ start, end }: Span): Span => ({ file, start: start + offset, end: end + offset });
  return {
    offset,
    items: reading.items.map((item) => buildItem(item, place)),
    problems: [
      ...reading.problems.map((problem) => placedProblem(problem, place)),
      ...withoutReason(reading, moved),
    ],
    unsaid: reading.unsaid,
    references: reading.items.flatMap(({ references }) =>
      references.map((reference) => ({ ...reference, at: moved(reference.at) })),
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
  for (const { name, at } of placed.flatMap(({ sections }) => sections)) {
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
