import { NOTHING_BAD } from '../check/check-item';
import type { Item, ItemCheck, Named } from '../check/checked';
import type { EntrySection } from '../check/item-kinds';
import { isGoodNode, isGoodScalar, type Shape, shapeOfKind } from '../check/quick-check';
import { CountsParser } from './counts-parse';
import { FlowLayouts, type InnerMap, type ValuePlace } from './flow-layout';
import type { MapNode, Node, ScalarNode } from './nodes';
import {
  CLOSE_MAP,
  DASH,
  DOUBLE_QUOTE,
  isRemembered,
  LF,
  OPEN_LIST,
  OPEN_MAP,
  plainScalar,
  QUOTE,
  SPACE,
} from './quick-parse';
import { ShapedMap } from './shaped-map';

/** An entry in which nothing is wrong, and what it names. */
export type ShapedItem = Item & ItemCheck;

/**
 * Reads a chunk that holds one entry as entries should be: by its schema, parsed and checked in one pass. Undefined
 * where anything is otherwise; then the chunk is read as a tree, and that is checked. A test holds both to the same.
 * What it gives stands until it is called again: then it is filled anew.
 */
export function shapedParse(kind: EntrySection, text: string): ShapedItem | undefined {
  return parser.item(kind, text);
}

/** A key with its colon; in braces a space must follow, elsewhere the line may end. */
const FLOW_KEY = /[A-Za-z][\w-]{0,60}:(?= )/y;
const BLOCK_KEY = /[A-Za-z][\w-]{0,60}:(?=[ \r\n])/y;

class ShapedParser extends CountsParser {
  /** What was named so far; for each entry it begins anew. */
  private readonly found: Named[] = [];

  item(kind: EntrySection, text: string): ShapedItem | undefined {
    this.text = text;
    this.at = 0;
    const item = this.read(kind);
    // Nothing is held of a text that was read.
    this.text = '';
    this.found.length = 0;
    return item;
  }

  private read(kind: EntrySection): ShapedItem | undefined {
    const shape = shapeOfKind(kind);
    const indent = shape && this.nextLine();
    if (!shape || indent === undefined || this.at >= this.text.length) return undefined;
    const key = this.key(false);
    if (!key) return undefined;
    const { namedByKey: section } = shape;
    if (section) this.found.push({ section, id: key.name, at: key, span: undefined });
    const value = this.valueBehind(indent, shape.value);
    if (!value || this.at < this.text.length) return undefined;
    return { kind, key, value, bad: NOTHING_BAD, references: this.found.slice() };
  }

  /** As `blockValue`. */
  private valueBehind(indent: number, shape: Shape): Node | undefined {
    const said = this.saidAgain(shape);
    if (said) return this.endLine() ? said : undefined;
    this.skipSpaces();
    if (!this.isLineOver()) {
      const value = this.valueHere(indent, shape, false);
      return value && this.endLine() ? value : undefined;
    }
    if (!this.endLine() || this.at >= this.text.length || this.indentHere <= indent) return undefined;
    const isList = this.code() === DASH && this.code(1) === SPACE;
    return !isList && shape.type === 'object' && shape.keys
      ? this.shapedBlock(this.indentHere, shape, shape.keys)
      : undefined;
  }

  /** As `inlineValue`; what is no map with known keys and no plain scalar is read as a tree. */
  private valueHere(indent: number, shape: Shape, inFlow: boolean): Node | undefined {
    const code = this.code();
    if (code === OPEN_MAP && shape.type === 'object' && shape.keys)
      return this.shapedFlow(indent, shape, shape.keys);
    if (code === OPEN_MAP && shape.type === 'object') {
      const counts = this.counts(indent, shape, this.found);
      if (counts) return counts;
    }
    if (code === OPEN_MAP || code === OPEN_LIST || code === QUOTE || code === DOUBLE_QUOTE) {
      const node = this.inlineValue(indent, inFlow, 0);
      return node && isGoodNode(node, shape, this.found) ? node : undefined;
    }
    const scalar = this.plain(inFlow);
    if (!scalar || !isGoodScalar(scalar, shape, this.found)) return undefined;
    if (isRemembered(scalar.raw)) shape.said = scalar;
    return scalar;
  }

  /** As `blockMap`. */
  private shapedBlock(indent: number, shape: Shape, keys: Shape['keys'] & object): MapNode | undefined {
    const map = mapOf(shape, keys).begin(this.at, false);
    let seen = 0;
    let last = map.values.length;
    for (;;) {
      const start = this.at;
      const index = this.keyAsBefore(map, last) ?? this.indexOfKey(BLOCK_KEY, keys);
      if (index === undefined || (seen & (1 << index)) !== 0) return undefined;
      seen |= 1 << index;
      map.followers[last] = index;
      last = index;
      const value = this.valueBehind(indent, shape.at(index));
      if (!value) return undefined;
      map.values[index] = value;
      map.keyStarts[index] = start;
      map.end = value.end;
      if (this.at >= this.text.length || this.indentHere < indent) break;
      if (this.indentHere > indent) return undefined;
    }
    return (seen & shape.required) === shape.required ? map : undefined;
  }

  /** The place of the key that followed the last one in the entry before, where it stands here too. */
  private keyAsBefore(map: ShapedMap, last: number): number | undefined {
    const index = map.followers[last];
    const written = index === undefined ? undefined : map.written[index];
    if (written === undefined || !this.text.startsWith(written, this.at)) return undefined;
    this.at += written.length;
    return index;
  }

  /** The scalar that the entry before had there, where it stands here too and ends the line. */
  private saidAgain({ said, refersTo }: Shape): ScalarNode | undefined {
    if (!said) return undefined;
    const start = this.at;
    const end = start + said.raw.length;
    if (this.text.charCodeAt(end) !== LF || !this.text.startsWith(said.raw, start)) return undefined;
    said.start = start;
    said.end = end;
    this.at = end;
    if (refersTo && typeof said.value === 'string')
      this.found.push({ section: refersTo, id: said.value, at: said, span: undefined });
    return said;
  }

  /** As `flowMap`. */
  private shapedFlow(indent: number, shape: Shape, keys: Shape['keys'] & object): MapNode | undefined {
    shape.layouts ??= new FlowLayouts(shape);
    const alike = this.writtenAlike(indent, shape, keys, shape.layouts);
    if (alike) return alike;
    const map = this.byKeys(indent, shape, keys);
    if (map) shape.layouts.learn(map, indent);
    return map;
  }

  /** A map that is written as others were, read by one match of a pattern. */
  private writtenAlike(
    indent: number,
    shape: Shape,
    keys: Shape['keys'] & object,
    layouts: FlowLayouts<Shape>,
  ): ShapedMap | undefined {
    const match = layouts.matchAt(this.text, this.at, indent);
    if (!match) return undefined;
    const { parts } = match;
    const { places } = match.layout;
    const named = this.found.length;
    const map = mapOf(shape, keys).begin(this.at, true);
    let { at } = this;
    let inner: InnerMap | undefined;
    for (let index = 0; index < places.length; index++) {
      const place = places[index] as ValuePlace<Shape>;
      const between = parts[2 * index + 1] as string;
      const written = parts[2 * index + 2] as string;
      if (place.inner !== inner) {
        if (inner) inner.map.end = at + between.indexOf('}') + 1;
        inner = place.inner;
        if (inner) {
          const open = at + between.lastIndexOf('{');
          map.values[inner.index] = inner.map.begin(open, true);
          map.keyStarts[inner.index] = open - inner.keyLength;
        }
      }
      at += between.length;
      const value = place.isList
        ? this.listAt(place.shape, written, at)
        : this.scalarAt(place.shape, written, at);
      if (!value) {
        this.at = map.start;
        this.found.length = named;
        return undefined;
      }
      const { values, keyStarts } = inner ? inner.map : map;
      values[place.index] = value;
      keyStarts[place.index] = at - place.keyLength;
      at += written.length;
    }
    const behind = parts[2 * places.length + 1] as string;
    if (inner) inner.map.end = at + behind.indexOf('}') + 1;
    this.at = at + behind.length;
    map.end = this.at;
    return map;
  }

  /** A plain scalar that is good where it stands. The last entry has been built: what its tree was made of is free. */
  private scalarAt(shape: Shape, written: string, start: number): ScalarNode | undefined {
    let scalar = shape.said;
    if (scalar === undefined || scalar.raw !== written) {
      const plain = plainScalar(written);
      if (!plain || !shape.isGoodValue(plain.value)) return undefined;
      const { value, raw } = plain;
      if (scalar) {
        scalar.value = value;
        scalar.raw = raw;
      } else {
        scalar = { kind: 'scalar', value, raw, start, end: start };
        shape.said = scalar;
      }
    }
    const { refersTo } = shape;
    scalar.start = start;
    scalar.end = start + written.length;
    if (refersTo && typeof scalar.value === 'string')
      this.found.push({ section: refersTo, id: scalar.value, at: scalar, span: undefined });
    return scalar;
  }

  /** A list in brackets that is good where it stands. */
  private listAt(shape: Shape, written: string, start: number): Node | undefined {
    this.at = start;
    const list = this.inlineValue(0, true, 0);
    return list?.end === start + written.length && isGoodNode(list, shape, this.found) ? list : undefined;
  }

  /** A map read key by key, as those are that are not written as any before. */
  private byKeys(indent: number, shape: Shape, keys: Shape['keys'] & object): ShapedMap | undefined {
    const map = mapOf(shape, keys).begin(this.at++, true);
    let seen = 0;
    for (;;) {
      if (!this.skipInFlow(indent)) return undefined;
      if (this.code() === CLOSE_MAP) break;
      const start = this.at;
      const index = this.indexOfKey(FLOW_KEY, keys);
      if (index === undefined || (seen & (1 << index)) !== 0) return undefined;
      seen |= 1 << index;
      this.skipSpaces();
      const value = this.valueHere(indent, shape.at(index), true);
      if (!value || !this.skipInFlow(indent)) return undefined;
      map.values[index] = value;
      map.keyStarts[index] = start;
      if (!this.takeComma(CLOSE_MAP)) return undefined;
    }
    map.end = ++this.at;
    return (seen & shape.required) === shape.required ? map : undefined;
  }

  /** The place of the key that stands here; goes on behind its colon. Undefined for one that the schema does not know. */
  private indexOfKey(pattern: RegExp, keys: Shape['keys'] & object): number | undefined {
    pattern.lastIndex = this.at;
    if (!pattern.test(this.text)) return undefined;
    const behind = pattern.lastIndex;
    const index = keys.get(this.text.slice(this.at, behind - 1));
    if (index !== undefined) this.at = behind;
    return index;
  }
}

/** One for each map of the schema: an entry has each of them once at most. Lists and maps of free keys are read as trees. */
function mapOf(shape: Shape, keys: Shape['keys'] & object): ShapedMap {
  shape.map ??= new ShapedMap(keys);
  return shape.map;
}

/** One for all: there are thousands of entries. */
const parser = new ShapedParser('');
