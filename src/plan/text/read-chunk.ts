import { buildItem } from '../build/build-item';
import { type ChunkPlace, spanAt } from '../build/places';
import type { Named } from '../check/checked';
import type { Allowance, Reference } from '../model';
import type { Problem } from '../problem';
import type { Span } from '../span';
import { type CheckedItem, type ChunkReading, readChunk, readHeading, usualEntry } from './chunk';
import type { AllowComment } from './comments';
import type { PlacedChunk, ReadChunk } from './kept-reading';
import { ownCopy } from './known-texts';
import { MovingPlace } from './moving-place';
import { isEmpty } from './nodes';
import { placedProblem } from './place-problem';
import type { Chunk } from './split';
import type { TextView } from './text-view';

/** One for all lists that hold nothing, as most do. */
const NONE: readonly never[] = [];

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
  text: TextView,
  chunk: Chunk,
  { brief, kept, isAlone }: ChunkOptions,
): ReadChunk {
  const { start, end } = chunk;
  const written = text.slice(start, end);
  const own = isAlone ? ownCopy(written) : written;
  const place = new MovingPlace(path, start, {
    source: isAlone ? own : text.toString(),
    from: isAlone ? 0 : start,
    to: isAlone ? own.length : end,
    brief,
    moves: kept && !brief,
  });
  const item = chunk.heading ? undefined : usualEntry(chunk.parent, own);
  const placed = item ? placeUsual(place, item) : placeChunk(place, readAfresh(chunk, own, brief));
  return { chunk, place, placed, brief };
}

/** An entry in which nothing is wrong, with nothing beside it. */
function placeUsual(place: ChunkPlace, item: CheckedItem): PlacedChunk {
  return {
    items: [buildItem(item, place)],
    problems: NONE,
    unsaid: 0,
    references: referencesIn(place, [item]),
    allowances: NONE,
    sections: NONE,
    version: undefined,
  };
}

function readAfresh(chunk: Chunk, text: string, brief: boolean): ChunkReading {
  const { parent, heading, start } = chunk;
  if (heading) return readHeading(text, heading.name, heading.start - start);
  const reading = readChunk(parent, text, brief);
  if (!chunk.tabs) return reading;
  const items = chunk.tabs === 'within' ? reading.items : NONE;
  return { ...reading, items, problems: NONE, unsaid: 0 };
}

function placeChunk(place: ChunkPlace, reading: ChunkReading): PlacedChunk {
  const { items, problems, comments, sections, unsaid } = reading;
  const moved = (span: Pick<Span, 'start' | 'end'>): Span => spanAt(place, span);
  return {
    items: items.length === 0 ? NONE : items.map((item) => buildItem(item, place)),
    problems:
      problems.length + comments.length === 0
        ? NONE
        : [...problems.map((problem) => placedProblem(problem, place)), ...withoutReason(reading, moved)],
    unsaid,
    references: referencesIn(place, items),
    allowances: comments.length === 0 ? NONE : comments.flatMap((comment) => allowance(comment, moved)),
    sections: sections.length === 0 ? NONE : sections.map((key) => ({ name: key.name, at: moved(key) })),
    version: versionIn(place, reading),
  };
}

/** What the items name; they are built, so that the places of what they name are mostly made. */
function referencesIn(place: ChunkPlace, items: readonly CheckedItem[]): readonly Reference[] {
  let count = 0;
  for (let index = 0; index < items.length; index++) count += items[index]?.references.length ?? 0;
  if (count === 0) return NONE;
  const all: Reference[] = new Array<Reference>(count);
  let filled = 0;
  for (let index = 0; index < items.length; index++) {
    const { kind, key, references } = items[index] as CheckedItem;
    for (let one = 0; one < references.length; one++) {
      const { section, id, at: named, span } = references[one] as Named;
      const at = span ?? spanAt(place, named);
      all[filled++] = kind === 'scenarios' ? { section, id, at, scenario: key.name } : { section, id, at };
    }
  }
  return all;
}

function versionIn(place: ChunkPlace, { version: pair }: ChunkReading): PlacedChunk['version'] {
  if (!pair) return undefined;
  const at = spanAt(place, isEmpty(pair.value) ? pair.key : pair.value);
  const value = pair.value.kind === 'scalar' ? pair.value : undefined;
  return { value: value?.value, raw: value?.raw ?? '', at };
}

function allowance(
  { start, end, allows, covers }: AllowComment,
  moved: (span: Pick<Span, 'start' | 'end'>) => Span,
): Allowance[] {
  if (!allows) return [];
  return [{ ...allows, at: moved({ start, end }), covers: moved(covers) }];
}

function withoutReason(
  { comments }: ChunkReading,
  moved: (span: Pick<Span, 'start' | 'end'>) => Span,
): Problem[] {
  return comments
    .filter(({ allows }) => !allows)
    .map(({ start, end }) => ({
      code: 'allowance-without-reason',
      message:
        "This comment allows nothing: it needs a finding's code and a reason, as in `# lotwright: allow room-partly-filled -- held back for late fruit`.",
      at: moved({ start, end }),
      about: 'comment',
    }));
}
