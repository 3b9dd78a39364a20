import type { PlaceNode, Span } from '../span';
import type { Node, Pair } from '../text/nodes';

/** Where a chunk stands: its file, and its offset in it. */
export interface ChunkPlace {
  readonly file: string;
  readonly offset: number;
  /** Whether it may move, and its spans with it. */
  readonly moves?: boolean;
  /** A span that moves with the chunk, of one that does. */
  spanOf?(start: number, end: number): Span;
  /** Called with each plain span made of it. */
  keep?(span: Span): void;
  /** The pair whose key begins there in the chunk, its text read again. */
  pairAt?(keyStart: number): Pair | undefined;
}

export function spanAt(place: ChunkPlace, { start, end }: { start: number; end: number }): Span {
  if (place.moves && place.spanOf) return place.spanOf(start, end);
  const { file, offset } = place;
  const span = { file, start: start + offset, end: end + offset };
  place.keep?.(span);
  return span;
}

/**
 * The places of an item's value and of all below it: where its text can be read again, when they are asked for. `at` is
 * the place of its key.
 */
export function placesOfItem(place: ChunkPlace, { key, value }: Pair, at: Span): PlaceNode {
  return place.pairAt && value.kind !== 'scalar'
    ? new LatePlaces(place, at, key.start, value.start, value.end)
    : placesOf(place, value, key);
}

/**
 * Places below a value, made when somebody looks for one of them. That is seldom (a finding is told, an edit is made),
 * and all places of a large plan take more memory than its values.
 */
class LatePlaces implements PlaceNode {
  readonly #place: ChunkPlace;
  readonly #keyStart: number;
  readonly #start: number;
  readonly #end: number;
  #below: PlaceNode | undefined;

  constructor(
    place: ChunkPlace,
    readonly key: Span,
    keyStart: number,
    start: number,
    end: number,
  ) {
    this.#place = place;
    this.#keyStart = keyStart;
    this.#start = start;
    this.#end = end;
  }

  get span(): Span {
    return spanAt(this.#place, { start: this.#start, end: this.#end });
  }

  get entries(): PlaceNode['entries'] {
    return this.#made().entries;
  }

  get items(): PlaceNode['items'] {
    return this.#made().items;
  }

  /** As places that are all there. */
  toJSON(): PlaceNode {
    const { span, key, entries, items } = this;
    return { span, key, ...(entries && { entries }), ...(items && { items }) };
  }

  #made(): PlaceNode {
    if (!this.#below) {
      const pair = this.#place.pairAt?.(this.#keyStart);
      this.#below = pair ? placesOf(this.#place, pair.value, pair.key) : { span: this.span, key: this.key };
    }
    return this.#below;
  }
}

/** The places of a value and of all below it. Of two equal keys the first counts. */
export function placesOf(place: ChunkPlace, node: Node, key?: { start: number; end: number }): PlaceNode {
  const span = spanAt(place, node);
  const own = key ? { span, key: spanAt(place, key) } : { span };
  if (node.kind === 'scalar') return own;
  if (node.kind === 'list') return { ...own, items: node.items.map((item) => placesOf(place, item)) };
  const entries = new Map<string, PlaceNode>();
  for (const pair of node.pairs)
    if (!entries.has(pair.key.name)) entries.set(pair.key.name, placesOf(place, pair.value, pair.key));
  return { ...own, entries };
}
