import type { KeyNode, MapNode, Node, Pair } from './nodes';

/** A map whose keys are known, read by its schema: each value at the place that its key has there. */
export class ShapedMap implements MapNode {
  readonly kind: 'map';
  readonly values: (Node | undefined)[];
  /** Where the keys stand, at the same places. */
  readonly keyStarts: (number | undefined)[];
  end: number;

  // All fields are set here: set beside their names they would each be a call more.
  constructor(
    private readonly keys: ReadonlyMap<string, number>,
    readonly flow: boolean,
    readonly start: number,
  ) {
    this.kind = 'map';
    this.values = new Array<Node | undefined>(keys.size);
    this.keyStarts = new Array<number | undefined>(keys.size);
    this.end = start;
  }

  under(key: string): Node | undefined {
    const index = this.keys.get(key);
    return index === undefined ? undefined : this.values[index];
  }

  /** In the order of the text. Made when they are asked for, which is seldom. */
  get pairs(): readonly Pair[] {
    const pairs: Pair[] = [];
    for (const [name, index] of this.keys) {
      const [value, start] = [this.values[index], this.keyStarts[index]];
      if (!value || start === undefined) continue;
      const key: KeyNode = { name, isText: true, start, end: start + name.length };
      pairs.push({ key, value });
    }
    return pairs.sort((a, b) => a.key.start - b.key.start);
  }
}
