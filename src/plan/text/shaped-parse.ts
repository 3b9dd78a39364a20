import type { Item, Named } from '../check/checked';
import type { EntrySection } from '../check/item-kinds';
import { isGoodNode, isGoodScalar, type Shape, shapeOfKind } from '../check/quick-check';
import type { MapNode, Node } from './nodes';
import {
  CLOSE_MAP,
  COMMA,
  DASH,
  DOUBLE_QUOTE,
  HASH,
  OPEN_LIST,
  OPEN_MAP,
  QUOTE,
  QuickParser,
  SPACE,
} from './quick-parse';
import { ShapedMap } from './shaped-map';

/** An entry in which nothing is wrong, and what it names. */
export interface ShapedItem extends Item {
  readonly references: readonly Named[];
}

/**
 * Reads a chunk that holds one entry as entries should be: by its schema, parsed and checked in one pass. Undefined
 * where anything is otherwise; then the chunk is read as a tree, and that is checked. A test holds both to the same.
 */
export function shapedParse(kind: EntrySection, text: string): ShapedItem | undefined {
  return parser.item(kind, text);
}

/** A key with its colon; in braces a space must follow, elsewhere the line may end. */
const FLOW_KEY = /[A-Za-z][\w-]{0,60}:(?= )/y;
const BLOCK_KEY = /[A-Za-z][\w-]{0,60}:(?=[ \r\n])/y;

class ShapedParser extends QuickParser {
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
    return { kind, key, value, references: this.found.slice() };
  }

  /** As `blockValue`. */
  private valueBehind(indent: number, shape: Shape): Node | undefined {
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
    if (code === OPEN_MAP || code === OPEN_LIST || code === QUOTE || code === DOUBLE_QUOTE) {
      const node = this.inlineValue(indent, inFlow, 0);
      return node && isGoodNode(node, shape, this.found) ? node : undefined;
    }
    const scalar = this.plain(inFlow);
    return scalar && isGoodScalar(scalar, shape, this.found) ? scalar : undefined;
  }

  /** As `blockMap`. */
  private shapedBlock(indent: number, shape: Shape, keys: Shape['keys'] & object): MapNode | undefined {
    const map = new ShapedMap(keys, false, this.at);
    let seen = 0;
    for (;;) {
      const start = this.at;
      const index = this.indexOfKey(BLOCK_KEY, keys);
      if (index === undefined || (seen & (1 << index)) !== 0) return undefined;
      seen |= 1 << index;
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

  /**
   * As `flowMap`. What it meets is nearly always what stood there in the map before: the same key behind the last one, and
   * often the same value. Both are compared with the text before they are looked for.
   */
  private shapedFlow(indent: number, shape: Shape, keys: Shape['keys'] & object): MapNode | undefined {
    const { text } = this;
    const map = new ShapedMap(keys, true, this.at);
    let seen = 0;
    let before = -1;
    let at = this.at + 1;
    for (;;) {
      let code = text.charCodeAt(at);
      while (code === SPACE) code = text.charCodeAt(++at);
      // A line's end or a comment may stand here, or nothing any more.
      if (!(code > HASH)) {
        this.at = at;
        if (!this.skipInFlow(indent)) return undefined;
        at = this.at;
        code = text.charCodeAt(at);
      }
      if (code === CLOSE_MAP) break;
      const start = at;
      let index = shape.behind[before + 1] ?? -1;
      const usual = shape.keyTexts[index];
      if (usual !== undefined && text.startsWith(usual, at)) at += usual.length;
      else {
        this.at = at;
        index = this.indexOfKey(FLOW_KEY, keys) ?? -1;
        if (index < 0) return undefined;
        at = this.at;
        shape.behind[before + 1] = index;
      }
      if ((seen & (1 << index)) !== 0) return undefined;
      seen |= 1 << index;
      before = index;
      while (text.charCodeAt(at) === SPACE) at++;
      const below = shape.at(index);
      let value: Node | undefined = this.saidAgain(below, at);
      if (!value) {
        this.at = at;
        value = this.valueHere(indent, below, true);
        if (!value) return undefined;
        if (value.kind === 'scalar') below.remember(value);
      }
      map.values[index] = value;
      map.keyStarts[index] = start;
      at = value.end;
      code = text.charCodeAt(at);
      while (code === SPACE) code = text.charCodeAt(++at);
      if (code !== COMMA && code !== CLOSE_MAP) {
        this.at = at;
        if (!this.skipInFlow(indent) || (this.code() !== COMMA && this.code() !== CLOSE_MAP))
          return undefined;
        at = this.at;
        code = this.code();
      }
      if (code === COMMA) at++;
    }
    this.at = at + 1;
    map.end = this.at;
    return (seen & shape.required) === shape.required ? map : undefined;
  }
  /** The scalar that stood under the key in the last map, where it stands here again and alone. It was found good. */
  private saidAgain(shape: Shape, start: number): Node | undefined {
    const { said, refersTo } = shape;
    const { text } = this;
    if (said === undefined || !text.startsWith(said.raw, start)) return undefined;
    const { value, raw } = said;
    const end = start + raw.length;
    let behind = end;
    while (text.charCodeAt(behind) === SPACE) behind++;
    const code = text.charCodeAt(behind);
    if (code !== COMMA && code !== CLOSE_MAP) return undefined;
    const node: Node = { kind: 'scalar', value, raw, start, end };
    if (refersTo && typeof value === 'string')
      this.found.push({ section: refersTo, id: value, at: node, span: undefined });
    return node;
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

/** One for all: there are thousands of entries. */
const parser = new ShapedParser('');
