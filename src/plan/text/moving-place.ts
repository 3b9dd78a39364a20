import type { ChunkPlace } from '../build/places';
import { MovingSpan } from './moving-span';
import type { Node, Pair } from './nodes';
import { parseBriefly, parseChunk } from './parse';

/** How the chunk was read. */
interface Written {
  /** The text that it stands in, its own or the whole file's, and from where to where. */
  readonly source: string;
  readonly from: number;
  readonly to: number;
  readonly brief: boolean;
  /** Where it is not to move, its spans are plain ones. */
  readonly moves: boolean;
}

/**
 * The place of a chunk that stays as it is while text above it grows or shrinks. All spans made of it move with it, so
 * that whatever was made of the chunk (an entry, a figure, a finding) stands for ever at its right place and need not
 * be made again. This is the one thing about a plan that changes after it was read: whoever reads with a cache has
 * spans into the newest text that was read with it.
 */
export class MovingPlace implements ChunkPlace {
  readonly moves: boolean;
  readonly #source: string;
  readonly #from: number;
  readonly #to: number;
  readonly #brief: boolean;

  constructor(
    readonly file: string,
    public offset: number,
    { source, from, to, brief, moves }: Written,
  ) {
    this.moves = moves;
    this.#source = source;
    this.#from = from;
    this.#to = to;
    this.#brief = brief;
  }

  spanOf(start: number, end: number): MovingSpan {
    return new MovingSpan(this, start, end);
  }

  moveTo(offset: number): void {
    this.offset = offset;
  }

  pairAt(keyStart: number): Pair | undefined {
    const parse = this.#brief ? parseBriefly : parseChunk;
    return pairIn(parse(this.#source.slice(this.#from, this.#to)).root, keyStart);
  }
}

/** The pair whose key begins there; a key stands before all that belongs to it. */
function pairIn(node: Node | undefined, keyStart: number): Pair | undefined {
  if (node?.kind !== 'map') return undefined;
  let last: Pair | undefined;
  for (const pair of node.pairs) {
    if (pair.key.start === keyStart) return pair;
    if (pair.key.start < keyStart) last = pair;
  }
  return pairIn(last?.value, keyStart);
}
