import { buildItem } from '../build/build-item';
import { type ChunkPlace, spanAt } from '../build/places';
import type { Allowance } from '../model';
import type { Problem } from '../problem';
import type { Span } from '../span';
import { type ChunkReading, readChunk, readHeading } from './chunk';
import type { AllowComment } from './comments';
import type { PlacedChunk, ReadChunk } from './kept-reading';
import { MovingPlace } from './moving-place';
import { isEmpty } from './nodes';
import { placedProblem } from './place-problem';
import type { Chunk } from './split';

export interface ChunkOptions {
  /** For what stands behind too many problems: such a reading is not kept. */
  readonly brief: boolean;
  /** Whether a later reading may take it over: then all spans made of it move with the chunk. */
  readonly kept: boolean;
  /** Whether it is kept without the rest of its text. */
  readonly isAlone: boolean;
}

/** Reads one chunk of a file's text. */
export function readChunkAt(
  path: string,
  text: string,
  chunk: Chunk,
  { brief, kept, isAlone }: ChunkOptions,
): ReadChunk {
  const written = text.slice(chunk.start, chunk.end);
  const own = isAlone ? ownCopy(written) : written;
  const reading = readAfresh(chunk, own, brief);
  const place = new MovingPlace(path, chunk.start, { text: own, brief, moves: kept && !brief });
  return { chunk, place, placed: placeChunk(place, reading), brief };
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
    version: versionIn(place, reading),
  };
}

function versionIn(place: ChunkPlace, { version: pair }: ChunkReading): PlacedChunk['version'] {
  if (!pair) return undefined;
  const at = spanAt(place, isEmpty(pair.value) ? pair.key : pair.value);
  const value = pair.value.kind === 'scalar' ? pair.value : undefined;
  return { value: value?.value, raw: value?.raw ?? '', at };
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
