import { parseDay, parseWeek } from '../dates';
import type { ReferableSection } from '../schema/values';
import type { FlowLayouts } from '../text/flow-layout';
import { KnownTexts, ownCopy } from '../text/known-texts';
import type { KeyNode, ListNode, MapNode, Node, ScalarNode } from '../text/nodes';
import type { ShapedMap } from '../text/shaped-map';
import type { Item, Named } from './checked';
import { isGood } from './good-text';
import { type ItemKind, itemKinds } from './item-kinds';
import { itemSchema, keyRefersTo } from './schema';
import type { Schema } from './schema-types';

/**
 * Tells in one pass over an item that nothing is wrong with it, as nearly always nothing is: what the generated
 * validator and `walk` would find. Where it does not know for certain, they are asked. A test holds both to the same
 * verdicts and the same references.
 */
export function quickCheck(item: Item): readonly Named[] | undefined {
  const shape = shapeOfKind(item.kind);
  if (!shape) return undefined;
  const { key, value } = item;
  const { namedByKey: section } = shape;
  const found: Named[] = section ? [{ section, id: key.name, at: key, span: undefined }] : [];
  return isGoodNode(value, shape.value, found) ? found : undefined;
}

interface KindShape {
  /** The section that an entry's own key names, as those of `progress` name fills. */
  readonly namedByKey: ReferableSection | undefined;
  readonly value: Shape;
}

const shapes = new Map<ItemKind, KindShape | undefined>();

/** What an item of a kind looks like; undefined for one that only the full check knows. */
export function shapeOfKind(kind: ItemKind): KindShape | undefined {
  if (shapes.has(kind)) return shapes.get(kind);
  // What a scenario lays over the plan is checked by what it is laid over.
  const shape =
    kind !== 'scenarios' && itemKinds.includes(kind)
      ? { namedByKey: keyRefersTo(kind) as ReferableSection | undefined, value: new Shape(itemSchema(kind)) }
      : undefined;
  shapes.set(kind, shape);
  return shape;
}

/** Of maps with more free keys than this a set tells whether a key stands twice. */
const FEW_PAIRS = 16;
/** The bits of a number tell which keys of a map were seen. */
const MOST_KEYS = 30;
/** Texts that are remembered as good, for each place in the schema. */
const MOST_GOOD = 512;

/** All that is looked at here; a schema that says more is left to the validator. */
const KNOWN_WORDS = new Set([
  'type',
  'properties',
  'required',
  'additionalProperties',
  'propertyNames',
  'items',
  'minItems',
  'pattern',
  'minLength',
  'minimum',
  'maximum',
  'enum',
  'description',
  'examples',
  'title',
]);

/** A schema made ready: which keys there are, and what has been found good there. */
export class Shape {
  readonly type: string | undefined;
  readonly refersTo: ReferableSection | undefined;
  readonly keyRefersTo: ReferableSection | undefined;
  readonly keyKind: Schema['x-key-kind'];
  /** The place of each key among the shapes below. */
  readonly keys: ReadonlyMap<string, number> | undefined;
  /** A scalar that was found good here, as an entry had it last; it holds no text but its own. */
  said: { -readonly [K in keyof ScalarNode]: ScalarNode[K] } | undefined;
  /** What the reading of an entry by its schema fills with the map that stands here, and how such maps were written. */
  map: ShapedMap | undefined;
  layouts: FlowLayouts<Shape> | undefined;
  /** A bit for each key that must be there. */
  readonly required: number = 0;
  private readonly below: (Shape | undefined)[] = [];
  private readonly pattern: RegExp | undefined;
  private readonly words: Schema['enum'];
  private readonly minLength: number;
  /** Finite numbers where the schema says no limit. */
  private readonly minimum: number;
  private readonly maximum: number;
  private readonly names: Shape | undefined;
  private readonly properties: readonly Schema[];
  private good: KnownTexts<true> | undefined;
  private goodNames: KnownTexts<true> | undefined;

  constructor(private readonly schema: Schema) {
    const { properties, required = [], additionalProperties, propertyNames } = schema;
    const names = Object.keys(properties ?? {});
    const isKnown =
      Object.keys(schema).every((word) => KNOWN_WORDS.has(word) || word.startsWith('x-')) &&
      names.length <= MOST_KEYS &&
      // Beside a pattern: it is what `good` holds texts for.
      (schema.pattern !== undefined || !(schema['x-dimension'] || schema['x-kind'])) &&
      required.every((name) => names.includes(name)) &&
      (schema.type !== 'object' ||
        (additionalProperties === false
          ? properties !== undefined && propertyNames === undefined
          : typeof additionalProperties === 'object' && properties === undefined));
    // A type that nothing has, so that nothing is good.
    this.type = isKnown ? schema.type : undefined;
    this.refersTo = schema['x-refers-to'] as ReferableSection | undefined;
    this.keyRefersTo = schema['x-key-refers-to'] as ReferableSection | undefined;
    this.keyKind = schema['x-key-kind'];
    this.keys = properties && new Map(names.map((name, index) => [name, index]));
    for (const name of required) this.required |= 1 << names.indexOf(name);
    this.words = schema.enum;
    this.minLength = schema.minLength ?? 0;
    this.minimum = schema.minimum ?? -Number.MAX_VALUE;
    this.maximum = schema.maximum ?? Number.MAX_VALUE;
    this.names = propertyNames && new Shape(propertyNames);
    this.properties = Object.values(properties ?? {});
    this.pattern = schema.pattern === undefined ? undefined : new RegExp(schema.pattern, 'u');
  }

  /** The shape of what stands under the key at that place. */
  at(index: number): Shape {
    let shape = this.below[index];
    if (!shape) {
      shape = new Shape(this.properties[index] ?? {});
      this.below[index] = shape;
    }
    return shape;
  }

  /** The shape of a list's items, or of what stands under free keys. */
  get inside(): Shape {
    let shape = this.below[0];
    if (!shape) {
      const { items, additionalProperties } = this.schema;
      shape = new Shape(items ?? (typeof additionalProperties === 'object' ? additionalProperties : {}));
      this.below[0] = shape;
    }
    return shape;
  }

  isLongEnough(list: ListNode): boolean {
    return list.items.length >= (this.schema.minItems ?? 0);
  }

  isGoodValue(value: string | number): boolean {
    // What has no pattern is told sooner than it is looked up.
    if (typeof value === 'number' || !this.pattern) return this.isValid(value);
    if (this.good?.get(value)) return true;
    if (!this.isValid(value) || !isGood(this.schema, value)) return false;
    this.good ??= new KnownTexts(MOST_GOOD);
    return this.good.set(ownCopy(value), true);
  }

  isGoodName(name: string): boolean {
    if (this.goodNames?.get(name)) return true;
    if (this.names && !this.names.isValid(name)) return false;
    // Identifiers are many, and have nothing else about them.
    if (!this.keyKind) return true;
    if (this.keyKind === 'week' && parseWeek(name) === undefined) return false;
    if (this.keyKind === 'day' && parseDay(name) === undefined) return false;
    this.goodNames ??= new KnownTexts(MOST_GOOD);
    return this.goodNames.set(ownCopy(name), true);
  }

  private isValid(value: string | number): boolean {
    if (this.words && !this.words.includes(value)) return false;
    if (typeof value === 'string')
      return this.type === 'string' && value.length >= this.minLength && (this.pattern?.test(value) ?? true);
    return (
      (this.type === 'number' || (this.type === 'integer' && Number.isInteger(value))) &&
      value >= this.minimum &&
      value <= this.maximum
    );
  }
}

export function isGoodNode(node: Node, shape: Shape, found: Named[]): boolean {
  switch (node.kind) {
    case 'scalar':
      return isGoodScalar(node, shape, found);
    case 'list':
      return shape.type === 'array' && isGoodList(node, shape, found);
    default:
      if (shape.type !== 'object') return false;
      return shape.keys ? isGoodMap(node, shape, shape.keys, found) : isGoodFreeMap(node, shape, found);
  }
}

export function isGoodScalar(node: ScalarNode, shape: Shape, found: Named[]): boolean {
  const { value } = node;
  if (typeof value !== 'string' && typeof value !== 'number') return false;
  if (!shape.isGoodValue(value)) return false;
  if (shape.refersTo && typeof value === 'string')
    found.push({ section: shape.refersTo, id: value, at: node, span: undefined });
  return true;
}

function isGoodList(list: ListNode, shape: Shape, found: Named[]): boolean {
  if (!shape.isLongEnough(list)) return false;
  const { inside } = shape;
  for (let index = 0; index < list.items.length; index++) {
    const item = list.items[index];
    if (!item || !isGoodNode(item, inside, found)) return false;
  }
  return true;
}

function isGoodMap(
  { pairs }: MapNode,
  shape: Shape,
  keys: ReadonlyMap<string, number>,
  found: Named[],
): boolean {
  let seen = 0;
  for (const { key, value } of pairs) {
    const index = keys.get(key.name);
    if (index === undefined) return false;
    const bit = 1 << index;
    if ((seen & bit) !== 0) return false;
    seen |= bit;
    if (!isGoodNode(value, shape.at(index), found)) return false;
  }
  return (seen & shape.required) === shape.required;
}

/** A map whose keys are identifiers, days or other names. */
function isGoodFreeMap({ pairs }: MapNode, shape: Shape, found: Named[]): boolean {
  const { inside, keyRefersTo: section } = shape;
  const seen = pairs.length > FEW_PAIRS ? new Set<string>() : undefined;
  for (let index = 0; index < pairs.length; index++) {
    const pair = pairs[index];
    if (!pair) return false;
    const { key, value } = pair;
    if (seen) {
      if (seen.has(key.name)) return false;
      seen.add(key.name);
    } else if (standsBefore(pairs, index, key)) return false;
    // Set as other keys are, it would be no key.
    if (key.name === '__proto__' || !shape.isGoodName(key.name)) return false;
    if (section) found.push({ section, id: key.name, at: key, span: undefined });
    if (!isGoodNode(value, inside, found)) return false;
  }
  return true;
}

function standsBefore(pairs: MapNode['pairs'], index: number, { name }: KeyNode): boolean {
  for (let before = 0; before < index; before++) if (pairs[before]?.key.name === name) return true;
  return false;
}
