import type { ChunkPlace } from '../build/places';
import type { Span } from '../span';
import type { Node, Pair } from './nodes';
import { parseBriefly, parseChunk } from './parse';

/** How the chunk was read. */
interface Written {
  readonly text: string;
  readonly brief: boolean;
  /** Where it is not to move, its spans are not kept. */
  readonly moves: boolean;
}

/**
 * The place of a chunk that stays as it is while text above it grows or shrinks. All spans made of it move with it, so
 * that whatever was made of the chunk (an entry, a figure, a finding) stands for ever at its right place and need not
 * be made again. This is the one thing about a plan that changes after it was read: whoever reads with a cache has
 * spans into the newest text that was read with it.
 */
export class MovingPlace implements ChunkPlace {
  readonly #spans: { start: number; end: number }[] = [];
  readonly #text: string;
  readonly #brief: boolean;
  readonly #moves: boolean;

  constructor(
    readonly file: string,
    public offset: number,
    { text, brief, moves }: Written,
  ) {
    this.#text = text;
    this.#brief = brief;
    this.#moves = moves;
  }

  keep(span: Span): void {
    if (this.#moves) this.#spans.push(span);
  }

  moveTo(offset: number): void {
    const by = offset - this.offset;
    if (by === 0) return;
    this.offset = offset;
    for (const span of this.#spans) {
      span.start += by;
      span.end += by;
    }
  }

  pairAt(keyStart: number): Pair | undefined {
    const parse = this.#brief ? parseBriefly : parseChunk;
    return pairIn(parse(this.#text).root, keyStart);
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
