/** A place in a plan file. Offsets are UTF-16 code units into the file's text, `end` exclusive. */
export interface Span {
  readonly file: string;
  readonly start: number;
  readonly end: number;
}

export function isSpan(data: object): data is Span {
  return 'file' in data && 'start' in data && 'end' in data;
}

/** A value as written in the plan, with the place where it stands. */
export interface Given<T> {
  readonly value: T;
  readonly at: Span;
}

/**
 * The places of an entry's values, as a tree that mirrors the YAML. Only the shape that findings need:
 * for a map `entries`, for a list `items`.
 */
export interface PlaceNode {
  /** The value's own span. */
  readonly span: Span;
  /** The key's span, where the value stands under a key. */
  readonly key?: Span;
  readonly entries?: ReadonlyMap<string, PlaceNode>;
  readonly items?: readonly PlaceNode[];
}

export type PlacePath = readonly (string | number)[];

/** The node at `path`, or the closest ancestor that exists: a finding about a missing key lands on its parent. */
export function placeAt(root: PlaceNode, path: PlacePath): PlaceNode {
  let node = root;
  for (const step of path) {
    const next = typeof step === 'number' ? node.items?.[step] : node.entries?.get(step);
    if (!next) return node;
    node = next;
  }
  return node;
}
