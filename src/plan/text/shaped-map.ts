import type { KeyNode, MapNode, Node, Pair } from './nodes';

/**
 * A map whose keys are known, read by its schema: each value at the place that its key has there. There is one for each
 * map of the schema, and it is filled anew for each entry.
 */
export class ShapedMap implements MapNode {
  readonly kind: 'map';
  readonly values: (Node | undefined)[];
  /** Where the keys stand, at the same places. */
  readonly keyStarts: number[];
  /** Each key as it is written before a value on its line, at the same places. */
  readonly written: readonly string[];
  /** Which key came behind each in the last block that was read; behind the last place the one that came first. */
  readonly followers: (number | undefined)[];
  flow: boolean;
  start: number;
  end: number;

  // All fields are set here: set beside their names they would each be a call more.
  constructor(private readonly keys: ReadonlyMap<string, number>) {
    this.kind = 'map';
    this.values = new Array<Node | undefined>(keys.size).fill(undefined);
    this.keyStarts = new Array<number>(keys.size).fill(0);
    this.written = Array.from(keys.keys(), (name) => `${name}: `);
    this.followers = new Array<number | undefined>(keys.size + 1).fill(undefined);
    this.flow = false;
    this.start = 0;
    this.end = 0;
  }

  /** Empty again, for what begins there. */
  begin(start: number, flow: boolean): this {
    this.values.fill(undefined);
    this.flow = flow;
    this.start = start;
    this.end = start;
    return this;
  }

  indexOf(key: string): number | undefined {
    return this.keys.get(key);
  }

  under(key: string): Node | undefined {
    const index = this.keys.get(key);
    return index === undefined ? undefined : this.values[index];
  }

  /** In the order of the text. Made when they are asked for, which is seldom. */
  get pairs(): readonly Pair[] {
    const pairs: Pair[] = [];
    for (const [name, index] of this.keys) {
      const value = this.values[index];
      if (!value) continue;
      const start = this.keyStarts[index] ?? 0;
      const key: KeyNode = { name, isText: true, start, end: start + name.length };
      pairs.push({ key, value });
    }
    return pairs.sort((a, b) => a.key.start - b.key.start);
  }
}
