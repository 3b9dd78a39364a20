import type { Named } from '../check/checked';
import { escapeStep } from '../check/pointer';
import { type Day, parseDay, parseWeek, type Week } from '../dates';
import type { Figure, Unit } from '../figure';
import { type Dimension, parseQuantity } from '../quantity';
import type { Given, Span } from '../span';
import { KnownTexts, ownCopy } from '../text/known-texts';
import { type Node, type Pair, plainValue, type ScalarNode } from '../text/nodes';
import { type ChunkPlace, spanAt } from './places';
import { WrittenFigure } from './written-figure';

/** What the tool calls each dimension's computing unit. */
const UNITS = {
  length: 'm',
  volume: 'm3',
  mass: 'kg',
  temperature: 'degC',
  'temperature difference': 'K',
  share: '%',
  concentration: 'ppm',
  pressure: 'Pa',
  force: 'N',
  power: 'kW',
  'heat transfer': 'W/m2K',
  flow: 'm3/h',
  removal: 'kg/day',
  respiration: 'mg/kg/h',
  transpiration: '1',
  'specific heat': 'kJ/kgK',
  density: 'kg/m3',
  'heat of respiration': '1',
  'short time': 'min',
  'long time': 'days',
} as const satisfies Readonly<Record<Dimension, Unit>>;

type UnitOf<D extends Dimension> = (typeof UNITS)[D];

/** A number under a key of the planner's own. */
interface Counted<U extends Unit> {
  readonly key: Given<string>;
  readonly count: Figure<U>;
}

/** A map with more pairs than this is looked up, not looked through. */
const FEW_PAIRS = 4;
/** One for all lists that are not there. */
const NONE: never[] = [];

/**
 * Reads the values of one map, each by itself: what is missing or was found wrong is undefined, the others stand.
 */
export class MapReader {
  private values: Map<string, Node> | undefined;
  private span: Span | undefined;
  /** The map's own `source`, or that of the map it stands in; null until it was looked for. */
  private ownSource: string | undefined | null;
  /** Where the next of what is named is likely to stand. */
  private nextNamed: number;

  // All fields are set here, as there are thousands of maps: set beside their names they would each take a call more.
  constructor(
    private readonly place: ChunkPlace,
    private readonly node: Node,
    private readonly bad: ReadonlySet<string>,
    /** What is named in it: the places of that are the same as here. */
    private readonly named: readonly Named[] = NONE,
    /** The map it stands in, and under which key or number. */
    private readonly above?: MapReader,
    private readonly step: string = '',
  ) {
    this.values = undefined;
    this.span = undefined;
    this.ownSource = null;
    this.nextNamed = 0;
  }

  /** The place of a text, which may name an entry. */
  private spanOf(node: Named['at']): Span {
    const next = this.named[this.nextNamed];
    if (next?.at === node) {
      this.nextNamed++;
      next.span ??= spanAt(this.place, node);
      return next.span;
    }
    for (let index = 0; index < this.named.length; index++) {
      const one = this.named[index];
      if (one?.at !== node) continue;
      this.nextNamed = index + 1;
      one.span ??= spanAt(this.place, node);
      return one.span;
    }
    return spanAt(this.place, node);
  }

  get at(): Span {
    this.span ??= spanAt(this.place, this.node);
    return this.span;
  }

  /** A figure of the given name from a quantity; or from a plain number, where `unit` says what it counts. */
  quantity<D extends Dimension>(key: string, name: string, dimension: D): Figure<UnitOf<D>> | undefined {
    const node = this.scalar(key);
    if (typeof node?.value !== 'string') return undefined;
    const quantity = parseQuantity(node.value, dimension);
    if (!quantity) return undefined;
    const unit = UNITS[dimension] as UnitOf<D>;
    return this.figure(name, unit, quantity.value, node, node.value);
  }

  count<U extends Unit>(key: string, name: string, unit: U): Figure<U> | undefined {
    const node = this.scalar(key);
    if (typeof node?.value !== 'number') return undefined;
    return this.figure(name, unit, node.value, node, node.raw);
  }

  private figure<U extends Unit>(
    name: string,
    unit: U,
    value: number,
    { start, end }: ScalarNode,
    text: string,
  ): Figure<U> {
    return new WrittenFigure(name, unit, value, this.place, start, end, text, this.source);
  }

  /** Where the planner has the values of this map from, or those of the map it stands in. */
  private get source(): string | undefined {
    if (this.ownSource === null) this.ownSource = this.text('source') ?? this.above?.source;
    return this.ownSource;
  }

  number(key: string): number | undefined {
    const value = this.scalar(key)?.value;
    return typeof value === 'number' ? value : undefined;
  }

  text(key: string): string | undefined {
    const value = this.scalar(key)?.value;
    return typeof value === 'string' ? value : undefined;
  }

  givenText(key: string): Given<string> | undefined {
    const node = this.scalar(key);
    return typeof node?.value === 'string' ? { value: node.value, at: this.spanOf(node) } : undefined;
  }

  /** One of a schema's words: the validator has let no other through. */
  word<W extends string>(key: string): W | undefined {
    return this.text(key) as W | undefined;
  }

  givenWord<W extends string>(key: string): Given<W> | undefined {
    return this.givenText(key) as Given<W> | undefined;
  }

  day(key: string): Given<Day> | undefined {
    return this.dated(key, parseDay);
  }

  week(key: string): Given<Week> | undefined {
    return this.dated(key, parseWeek);
  }

  daySpan(key: string): Given<{ first: Day; last: Day }> | undefined {
    return this.dated(key, readDays);
  }

  weekSpan(key: string): Given<{ first: Week; last: Week }> | undefined {
    return this.dated(key, readWeeks);
  }

  private dated<T>(key: string, read: (text: string) => T | undefined): Given<T> | undefined {
    const node = this.scalar(key);
    const value = typeof node?.value === 'string' ? read(node.value) : undefined;
    return node && value !== undefined ? { value, at: spanAt(this.place, node) } : undefined;
  }

  /** The day spans of a list. */
  daySpans(key: string): Given<{ first: Day; last: Day }>[] {
    return this.texts(key).flatMap(({ value: text, at }) => {
      const value = readDays(text);
      return value ? [{ value, at }] : [];
    });
  }

  /** The texts of a list. */
  texts(key: string): Given<string>[] {
    const list = this.below(key);
    if (list?.kind !== 'list') return NONE;
    const texts: Given<string>[] = [];
    for (let index = 0; index < list.items.length; index++) {
      const item = list.items[index];
      if (item?.kind === 'scalar' && typeof item.value === 'string' && !this.isBad(key, index))
        texts.push({ value: item.value, at: this.spanOf(item) });
    }
    // A copy is as long as it need be; what was pushed to has room for sixteen more.
    return texts.slice();
  }

  map(key: string): MapReader | undefined {
    const node = this.below(key);
    return node?.kind === 'map' ? this.deeper(node, escapeStep(key)) : undefined;
  }

  /** All that stands in the map as JSON, keys in order: equal for the same content. */
  content(): string {
    return JSON.stringify(plainValue(this.node), (_, value: unknown) => inOrder(value));
  }

  /** The maps of a list. */
  maps(key: string): MapReader[] | undefined {
    const list = this.below(key);
    if (list?.kind !== 'list') return undefined;
    return list.items.flatMap((item, index) =>
      item.kind === 'map' ? [this.deeper(item, `${escapeStep(key)}/${index}`)] : [],
    );
  }

  /** How many keys stand in the map, right or wrong. */
  get size(): number {
    return this.node.kind === 'map' ? this.node.pairs.length : 0;
  }

  /** The keys of the map, in the order of the text; those that were found wrong are left out. */
  keys(): Given<string>[] {
    if (this.node.kind !== 'map') return NONE;
    const found: Given<string>[] = [];
    const { pairs } = this.node;
    for (let index = 0; index < pairs.length; index++) {
      const { key, value } = pairs[index] as Pair;
      // The first of two equal keys counts.
      if (this.valueOf(key.name) !== value) continue;
      if (value.kind !== 'map' && this.isBad(key.name)) continue;
      found.push({ value: key.name, at: this.spanOf(key) });
    }
    return found;
  }

  /** The numbers under the map's keys, in the order of the text, each a figure; those that were found wrong are left out. */
  counts<U extends Unit>(nameOf: (key: string) => string, unit: U): Counted<U>[] {
    const { node, place } = this;
    const found: Counted<U>[] = [];
    if (node.kind !== 'map') return found;
    if (!node.areCounts) {
      for (const key of this.keys()) {
        const count = this.count(key.value, nameOf(key.value), unit);
        if (count) found.push({ key, count });
      }
      return found;
    }
    const source = this.above?.source;
    const { pairs } = node;
    for (let index = 0; index < pairs.length; index++) {
      const { key, value } = pairs[index] as Pair;
      if (value.kind !== 'scalar' || typeof value.value !== 'number') continue;
      const at = this.spanOf(key);
      const { start, end, raw } = value;
      const count = new WrittenFigure(nameOf(key.name), unit, value.value, place, start, end, raw, source);
      found.push({ key: { value: key.name, at }, count });
    }
    return found;
  }

  /** What stands under a key, where it is a scalar that was not found wrong. Asked for each value of a plan. */
  private scalar(key: string): ScalarNode | undefined {
    const { node } = this;
    const value = node.kind === 'map' && node.under ? node.under(key) : this.valueOf(key);
    return value?.kind === 'scalar' && (this.bad.size === 0 || !this.isBad(key)) ? value : undefined;
  }

  private below(key: string): Node | undefined {
    const value = this.valueOf(key);
    return value && (value.kind !== 'scalar' || !this.isBad(key)) ? value : undefined;
  }

  /** The first of two equal keys counts. */
  private valueOf(key: string): Node | undefined {
    const { node } = this;
    if (node.kind !== 'map') return undefined;
    if (node.under) return node.under(key);
    if (this.values) return this.values.get(key);
    const { pairs } = node;
    if (pairs.length <= FEW_PAIRS) {
      for (let index = 0; index < pairs.length; index++)
        if (pairs[index]?.key.name === key) return pairs[index]?.value;
      return undefined;
    }
    const values = new Map<string, Node>();
    for (let index = 0; index < pairs.length; index++) {
      const { key: own, value } = pairs[index] as Pair;
      if (!values.has(own.name)) values.set(own.name, value);
    }
    this.values = values;
    return values.get(key);
  }

  private deeper(node: Node, step: string): MapReader {
    return new MapReader(this.place, node, this.bad, this.named, this, step);
  }

  private isBad(key: string, index?: number): boolean {
    if (this.bad.size === 0) return false;
    const pointer = `${this.pointer}/${escapeStep(key)}`;
    return this.bad.has(index === undefined ? pointer : `${pointer}/${index}`);
  }

  /** The JSON pointer to the map: put together only where something is wrong. */
  private get pointer(): string {
    return this.above ? `${this.above.pointer}/${this.step}` : '';
  }
}

interface DaySpan {
  readonly first: Day;
  readonly last: Day;
}

/** Lots that are picked on the same days share them. */
const knownDays = new KnownTexts<DaySpan>(512);

function readDays(text: string): DaySpan | undefined {
  const known = knownDays.get(text);
  if (known) return known;
  const days = readSpan(text, parseDay);
  return days && knownDays.set(ownCopy(text), days);
}

function readWeeks(text: string) {
  return readSpan(text, parseWeek);
}

function readSpan(text: string, read: (text: string) => number | undefined) {
  const dots = text.indexOf('..');
  const first = read(dots < 0 ? text : text.slice(0, dots));
  const last = dots < 0 ? first : read(text.slice(dots + 2).split('..', 1)[0] ?? '');
  return first === undefined || last === undefined || last < first ? undefined : { first, last };
}

function inOrder(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
}
