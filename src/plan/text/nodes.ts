/**
 * The YAML of one chunk as a tree of our own: only what a plan may hold, with offsets relative to the chunk.
 * `end` is exclusive.
 */
export type Node = ScalarNode | MapNode | ListNode;

export interface ScalarNode {
  readonly kind: 'scalar';
  readonly value: string | number | boolean | null;
  /** As written, quotes included. */
  readonly raw: string;
  readonly start: number;
  readonly end: number;
}

export interface MapNode {
  readonly kind: 'map';
  /** The value under a key, of a map that was read by its schema: without looking through its pairs. */
  under?(key: string): Node | undefined;
  readonly pairs: readonly Pair[];
  /** Known of a map of free keys: they all differ, and numbers stand under all of them. */
  readonly areCounts?: true;
  /** Written with braces. */
  readonly flow: boolean;
  readonly start: number;
  readonly end: number;
}

export interface ListNode {
  readonly kind: 'list';
  readonly items: readonly Node[];
  readonly flow: boolean;
  readonly start: number;
  readonly end: number;
}

export interface Pair {
  readonly key: KeyNode;
  readonly value: Node;
}

export interface KeyNode {
  /** The key as text, also where YAML reads a number. */
  readonly name: string;
  /** False where YAML reads the key as a number, a boolean or nothing. */
  readonly isText: boolean;
  readonly start: number;
  readonly end: number;
}

/** A pair of a map by its key; the first where a key stands twice. */
export function pairOf(map: Node | undefined, name: string): Pair | undefined {
  return map?.kind === 'map' ? map.pairs.find(({ key }) => key.name === name) : undefined;
}

/** Whether a key was written and nothing after it: the half-typed state. */
export function isEmpty(node: Node): boolean {
  return node.kind === 'scalar' && node.value === null && node.raw === '';
}

/** The value as plain data, for the validators. The first of two equal keys counts. */
export function plainValue(node: Node): unknown {
  if (node.kind === 'scalar') return node.value;
  if (node.kind === 'list') return node.items.map(plainValue);
  const data: Record<string, unknown> = {};
  for (const { key, value } of node.pairs)
    if (!Object.hasOwn(data, key.name)) {
      if (key.name !== '__proto__') data[key.name] = plainValue(value);
      // Set as other keys are, it would be no key.
      else Object.defineProperty(data, key.name, { value: plainValue(value), enumerable: true });
    }
  return data;
}
