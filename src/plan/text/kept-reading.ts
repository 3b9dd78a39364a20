import type { BuiltItem } from '../build/build-item';
import type { Allowance, Reference } from '../model';
import type { Problem } from '../problem';
import type { Span } from '../span';
import type { ChunkReading } from './chunk';
import type { MovingPlace } from './moving-place';
import type { Chunk } from './split';

/** What one reading leaves for the next. */
export interface KeptReading {
  /** The text as it was read. */
  readonly normal: string;
  /** Whether it was read as it stands, and every line stood as it should. */
  readonly isUsual: boolean;
  readonly chunks: readonly ReadChunk[];
}

/** A chunk with what it says. */
export interface ReadChunk {
  /** Where it stands now. */
  chunk: Chunk;
  readonly reading: ChunkReading;
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
}
