import { escapeStep } from '../check/pointer';
import { type Day, parseDay, parseWeek, type Week } from '../dates';
import { type Figure, planFigure, type Unit } from '../figure';
import { type Dimension, parseQuantity } from '../quantity';
import type { Given, Span } from '../span';
import { type KeyNode, type Node, plainValue, type ScalarNode } from '../text/nodes';
import { type ChunkPlace, spanAt } from './places';

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

/**
 * Reads the values of one map, each by itself: what is missing or was found wrong is undefined, the others stand.
 */
export class MapReader {
  private values: Map<string, Node> | undefined;
  /** The map's own `source`, read once. */
  private own: { readonly source: string | undefined } | undefined;

  constructor(
    private readonly place: ChunkPlace,
    private readonly node: Node,
    private readonly bad: ReadonlySet<string>,
    /** Where the map stands in the file, where that is known already; and the map it stands in. */
    private readonly around: { span?: Span; readonly above?: MapReader } = {},
    private readonly pointer = '',
  ) {}

  get at(): Span {
    this.around.span ??= spanAt(this.place, this.node);
    return this.around.span;
  }

  /** A figure of the given name from a quantity; or from a plain number, where `unit` says what it counts. */
  quantity<D extends Dimension>(key: string, name: string, dimension: D): Figure<UnitOf<D>> | undefined {
    const given = this.givenText(key);
    const quantity = given && parseQuantity(given.value, dimension);
    if (!quantity) return undefined;
    const unit = UNITS[dimension] as UnitOf<D>;
    return planFigure(name, unit, quantity.value, given.at, given.value, this.source);
  }

  count<U extends Unit>(key: string, name: string, unit: U): Figure<U> | undefined {
    const node = this.scalar(key);
    if (typeof node?.value !== 'number') return undefined;
    return planFigure(name, unit, node.value, spanAt(this.place, node), node.raw, this.source);
  }

  /** Where the planner has the values of this map from, or those of the map it stands in. */
  private get source(): string | undefined {
    this.own ??= { source: this.text('source') ?? this.around.above?.source };
    return this.own.source;
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
    return typeof node?.value === 'string' ? { value: node.value, at: spanAt(this.place, node) } : undefined;
  }

  /** One of a schema's words: the validator has let no other through. */
  word<W extends string>(key: string): W | undefined {
    return this.text(key) as W | undefined;
  }

  givenWord<W extends string>(key: string): Given<W> | undefined {
    return this.givenText(key) as Given<W> | undefined;
  }

  day(key: string): Given<Day> | undefined {
    return readGiven(this.givenText(key), parseDay);
  }

  week(key: string): Given<Week> | undefined {
    return readGiven(this.givenText(key), parseWeek);
  }

  daySpan(key: string): Given<{ first: Day; last: Day }> | undefined {
    return readGiven(this.givenText(key), (text) => readSpan(text, parseDay));
  }

  weekSpan(key: string): Given<{ first: Week; last: Week }> | undefined {
    return readGiven(this.givenText(key), (text) => readSpan(text, parseWeek));
  }

  /** The day spans of a list. */
  daySpans(key: string): Given<{ first: Day; last: Day }>[] {
    return this.texts(key).flatMap((given) => readGiven(given, (text) => readSpan(text, parseDay)) ?? []);
  }

  /** The texts of a list. */
  texts(key: string): Given<string>[] {
    const list = this.below(key);
    if (list?.kind !== 'list') return [];
    return list.items.flatMap((item, index) =>
      item.kind === 'scalar' && typeof item.value === 'string' && !this.bad.has(`${this.to(key)}/${index}`)
        ? [{ value: item.value, at: spanAt(this.place, item) }]
        : [],
    );
  }

  map(key: string): MapReader | undefined {
    const node = this.below(key);
    return node?.kind === 'map' ? this.deeper(node, this.to(key)) : undefined;
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
      item.kind === 'map' ? [this.deeper(item, `${this.to(key)}/${index}`)] : [],
    );
  }

  /** The keys of the map, in the order of the text; those that were found wrong are left out. */
  keys(): Given<string>[] {
    if (this.node.kind !== 'map') return [];
    const seen = new Set<string>();
    const found: Given<string>[] = [];
    for (const { key } of this.node.pairs) {
      if (seen.has(key.name)) continue;
      seen.add(key.name);
      if (this.isBad(key.name) && !this.isMap(key)) continue;
      found.push({ value: key.name, at: spanAt(this.place, key) });
    }
    return found;
  }

  private isMap(key: KeyNode): boolean {
    return this.valueOf(key.name)?.kind === 'map';
  }

  private scalar(key: string): ScalarNode | undefined {
    const node = this.below(key);
    return node?.kind === 'scalar' ? node : undefined;
  }

  private below(key: string): Node | undefined {
    const value = this.valueOf(key);
    return value && (value.kind !== 'scalar' || !this.isBad(key)) ? value : undefined;
  }

  /** The first of two equal keys counts. */
  private valueOf(key: string): Node | undefined {
    if (!this.values) {
      this.values = new Map();
      const pairs = this.node.kind === 'map' ? this.node.pairs : [];
      for (const pair of pairs)
        if (!this.values.has(pair.key.name)) this.values.set(pair.key.name, pair.value);
    }
    return this.values.get(key);
  }

  private deeper(node: Node, pointer: string): MapReader {
    return new MapReader(this.place, node, this.bad, { above: this }, pointer);
  }

  private isBad(key: string): boolean {
    return this.bad.size > 0 && this.bad.has(this.to(key));
  }

  private to(key: string): string {
    return `${this.pointer}/${escapeStep(key)}`;
  }
}

function readGiven<T>(given: Given<string> | undefined, read: (text: string) => T | undefined) {
  const value = given && read(given.value);
  return given && value !== undefined ? { value, at: given.at } : undefined;
}

function readSpan(text: string, read: (text: string) => number | undefined) {
  const [from = '', to = from] = text.split('..');
  const [first, last] = [read(from), read(to)];
  return first === undefined || last === undefined || last < first ? undefined : { first, last };
}

function inOrder(value: unknown): unknown {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0)));
}
