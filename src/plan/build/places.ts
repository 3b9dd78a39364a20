import type { PlaceNode, Span } from '../span';
import type { Node } from '../text/nodes';

/** Where a chunk stands: its file, and its offset in it. */
export interface ChunkPlace {
  readonly file: string;
  readonly offset: number;
  /** Called with each span made of it, by a chunk that may move. */
  readonly keep?: (span: Span) => void;
}

export function spanAt(place: ChunkPlace, { start, end }: { start: number; end: number }): Span {
  const { file, offset } = place;
  const span = { file, start: start + offset, end: end + offset };
  place.keep?.(span);
  return span;
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
