import type { Node } from './nodes';
import { ShapedMap } from './shaped-map';

/** What a map is to be like: it tells the same of what stands under a key, by the key's place. */
interface Shaped<S> {
  at(index: number): S;
}

/**
 * How a map in braces was written: which keys in which order, all values plain scalars, alone, in braces again or in
 * brackets. Entries of a plan are mostly written alike, and one match of a pattern reads the whole of the next one.
 */
export interface FlowLayout<S> {
  /** Of the entry. Lines below it must be deeper. */
  readonly indent: number;
  /** Matches what stands between the values and the values, by turns. */
  readonly pattern: RegExp;
  readonly places: readonly ValuePlace<S>[];
}

/** Where a scalar of the map belongs, or a list of scalars. */
export interface ValuePlace<S> {
  /** Its key. */
  readonly name: string;
  /** What it must be like. */
  readonly shape: S;
  readonly index: number;
  /** How long its key is, with the colon and the space behind it. */
  readonly keyLength: number;
  readonly isList: boolean;
  /** The map in braces within the map that it belongs to, and what that is under. */
  readonly inner: InnerMap | undefined;
}

export interface InnerMap {
  readonly name: string;
  readonly map: ShapedMap;
  readonly index: number;
  readonly keyLength: number;
}

/** A plain scalar in which no sign of YAML's own stands, and no longer than those that are remembered. */
const SCALAR = '([A-Za-z0-9](?:[^\\r\\n#:,[\\]{}]{0,58}[^\\r\\n#:,[\\]{} ])?)';

const LIST = '(\\[[^\\r\\n#:[\\]{}"\']*\\])';

/** Layouts that are told apart for a map of the schema; entries that are all written in other ways are read key by key. */
const MOST_LAYOUTS = 32;
/** Maps that layouts are taken from. */
const MOST_LEARNT = 256;
/** Layouts that are tried. */
const MOST_TRIED = 4;

/** The layouts in which a map of the schema was written. */
export class FlowLayouts<S extends Shaped<S>> {
  /** The one that matched last stands first. */
  private readonly tried: FlowLayout<S>[] = [];
  /** Whether a layout that was seen is made, by its keys and its indent. */
  private readonly seen = new Map<string, boolean>();

  private learnt = 0;

  constructor(private readonly shape: S) {}

  /** The match of a layout at a place of the text, and that layout, which then is the first. */
  matchAt(
    text: string,
    at: number,
    indent: number,
  ): { layout: FlowLayout<S>; parts: RegExpExecArray } | undefined {
    const { tried } = this;
    for (let index = 0; index < tried.length; index++) {
      const layout = tried[index] as FlowLayout<S>;
      if (layout.indent !== indent) continue;
      layout.pattern.lastIndex = at;
      const parts = layout.pattern.exec(text);
      if (!parts) continue;
      if (index > 0) {
        tried.splice(index, 1);
        tried.unshift(layout);
      }
      return { layout, parts };
    }
    return undefined;
  }

  /** Takes the layout of a map that was read key by key, once it has been met before. */
  learn(map: ShapedMap, indent: number): void {
    if (this.learnt >= MOST_LEARNT) return;
    this.learnt++;
    const places = placesIn(map, this.shape);
    if (!places) return;
    const name = `${indent}:${places.map(({ index, isList, inner }) => `${inner?.index ?? ''}/${index}${isList ? '[]' : ''}`).join()}`;
    const isMade = this.seen.get(name);
    if (isMade || (isMade === undefined && this.seen.size >= MOST_LAYOUTS)) return;
    this.seen.set(name, isMade === false);
    if (isMade === undefined) return;
    this.tried.unshift({ indent, places, pattern: patternOf(places, indent) });
    this.tried.length = Math.min(this.tried.length, MOST_TRIED);
  }
}

/** Where the scalars of a map belong, in the order of the text; undefined where it holds anything else, or nothing. */
function placesIn<S extends Shaped<S>>(
  map: ShapedMap,
  shape: S,
  inner?: InnerMap,
): ValuePlace<S>[] | undefined {
  const places: ValuePlace<S>[] = [];
  for (const { key, value } of map.pairs) {
    const index = map.indexOf(key.name) ?? -1;
    const keyLength = key.name.length + 2;
    const isList = value.kind === 'list' && value.flow;
    if (isList || isPlain(value)) {
      places.push({ name: key.name, shape: shape.at(index), index, keyLength, isList, inner });
      continue;
    }
    if (!(value instanceof ShapedMap) || inner) return undefined;
    const below = placesIn(value, shape.at(index), { name: key.name, map: value, index, keyLength });
    if (!below) return undefined;
    places.push(...below);
  }
  return places.length > 0 ? places : undefined;
}

function isPlain(node: Node): boolean {
  return node.kind === 'scalar' && (node.value === node.raw || typeof node.value === 'number');
}

/** By turns a group for all that stands between two scalars, and one for a scalar. */
function patternOf(places: readonly ValuePlace<unknown>[], indent: number): RegExp {
  const gap = ` *(?:\\r?\\n {${indent + 1},})?`;
  let pattern = '';
  let between = `(\\{${gap}`;
  let inner: InnerMap | undefined;
  for (const place of places) {
    if (inner && place.inner !== inner) between += `\\}${gap}`;
    if (pattern) between += `,${gap}`;
    if (place.inner && place.inner !== inner) between += `${place.inner.name}: \\{${gap}`;
    inner = place.inner;
    pattern += `${between}${place.name}: )${place.isList ? LIST : SCALAR}`;
    between = `(${gap}`;
  }
  return new RegExp(`${pattern}${between}${inner ? `\\}${gap}` : ''}\\})`, 'y');
}
