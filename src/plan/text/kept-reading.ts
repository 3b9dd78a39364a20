import type { BuiltItem } from '../build/build-item';
import type { Allowance, Reference } from '../model';
import type { Problem } from '../problem';
import type { Span } from '../span';
import type { MovingPlace } from './moving-place';
import type { ReadText } from './read-text';
import type { Chunk } from './split';
import type { TextView } from './text-view';

/** A file as read by itself. A later reading takes over what has not changed. */
export interface FileReading {
  readonly file: ReadText;
  /** False where the file's text is not to be read at all. */
  readonly isRead: boolean;
  /** The text as it was read, every character at its offset. */
  readonly normal: TextView;
  /** Whether it was read as it stands. */
  readonly isUsual: boolean;
  /** What was found wrong with the file as a whole: not in a single chunk. */
  readonly problems: readonly Problem[];
  /** In the order of the text. */
  readonly chunks: readonly ReadChunk[];
  /** Problems of its chunks that were put into words. */
  readonly told: number;
}

/** A chunk with what it says. */
export interface ReadChunk {
  /** Where it stands now. */
  chunk: Chunk;
  readonly place: MovingPlace;
  readonly placed: PlacedChunk;
  /** A brief reading leaves things out: the next one does not take it over. */
  readonly brief: boolean;
}

/** The same at its place. */
export interface PlacedChunk {
  readonly items: readonly BuiltItem[];
  readonly problems: readonly Problem[];
  readonly unsaid: number;
  readonly references: readonly Reference[];
  readonly allowances: readonly Allowance[];
  readonly sections: readonly { readonly name: string; readonly at: Span }[];
  /** The language version, where the chunk says one. */
  readonly version: { readonly value: unknown; readonly raw: string; readonly at: Span } | undefined;
}

/** How a reading differs from the last one of the same file: in place of some chunks stand others, and no more. */
export interface ChunkChange {
  /** The first chunk that differs. */
  readonly index: number;
  readonly before: readonly ReadChunk[];
  readonly after: readonly ReadChunk[];
}
