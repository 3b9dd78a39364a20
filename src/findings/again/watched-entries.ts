import type { Dependent, Noticer } from './cells';
import { ReadMap } from './read-map';

/** Fields are told apart by the bits of a number: as many as it has, and the last for all the others. */
const MOST_FIELDS = 31;

/** So many readers are looked through one by one. */
const FEW = 16;

/** Who looked at which fields of something. Whoever was told of a change is forgotten: it looks again. */
class FieldReaders {
  private readers: readonly Dependent[] = NOBODY;
  /** The fields of each, in the same order. */
  private seen: number[] = NO_FIELDS;
  /** Where there are many: where each stands. */
  private places: Map<Dependent, number> | undefined;
  /** Where the one stands who read last: it mostly reads on. */
  private last = -1;

  hasReader(reader: Dependent): boolean {
    return this.placeOf(reader) >= 0;
  }

  read(reader: Dependent, fields: number): void {
    const place = this.placeOf(reader);
    if (place >= 0) {
      this.seen[place] = (this.seen[place] ?? 0) | fields;
      this.last = place;
      return;
    }
    // As short as they can be: there are many of them.
    this.readers = this.readers.concat(reader);
    this.seen = this.seen.concat(fields);
    this.last = this.readers.length - 1;
    if (this.places) this.places.set(reader, this.last);
    else if (this.readers.length > FEW)
      this.places = new Map(this.readers.map((one, index) => [one, index] as const));
  }

  changed(fields: number): void {
    const { readers, seen } = this;
    let told = 0;
    for (let index = 0; index < readers.length; index++) {
      const reader = readers[index] as Dependent;
      if (((seen[index] ?? 0) & fields) !== 0) reader.isOld = true;
      if (reader.isOld) told++;
    }
    if (told === 0) return;
    this.readers = told === readers.length ? NOBODY : readers.filter(({ isOld }) => !isOld);
    this.seen =
      told === readers.length ? NO_FIELDS : seen.filter((_, index) => readers[index]?.isOld === false);
    this.places = undefined;
    this.last = -1;
  }

  /** Whether nobody who still holds looked at it. */
  get isEmpty(): boolean {
    return this.readers.every(({ isOld }) => isOld);
  }

  private placeOf(reader: Dependent): number {
    if (this.readers[this.last] === reader) return this.last;
    return this.places ? (this.places.get(reader) ?? -1) : this.readers.indexOf(reader);
  }
}

const NOBODY: readonly Dependent[] = [];
const NO_FIELDS: number[] = [];

/** Whether there is the entry at all, and in what order. */
const PRESENCE = 1;
const ALL = -1;

/** Each field's bit, in the order in which they are first seen. */
class Fields {
  private readonly bits = new Map<PropertyKey, number>();

  bitOf(field: PropertyKey): number {
    let bit = this.bits.get(field);
    if (bit === undefined) {
      bit = 1 << Math.min(MOST_FIELDS, this.bits.size + 1);
      this.bits.set(field, bit);
    }
    return bit;
  }

  /** The fields in which two entries are not the same. */
  differing<V extends object>(a: V, b: V): number {
    let fields = 0;
    for (const name in b) if (a[name] !== b[name]) fields |= this.bitOf(name);
    for (const name in a) if (!(name in b)) fields |= this.bitOf(name);
    return fields;
  }
}

/** What an entry that is shown stands for in the engine's eyes: none has anything of its own. */
const NO_FIELDS_OF_ITS_OWN = {};

/** An entry as it is shown: the one of the plan that was read last, whose readers are noticed field by field. */
class Shown<V extends object> extends FieldReaders implements ProxyHandler<V> {
  readonly entry: V;

  constructor(
    public now: V | undefined,
    private readonly map: WatchedEntries<V>,
  ) {
    super();
    this.entry = new Proxy(NO_FIELDS_OF_ITS_OWN as V, this);
  }

  get(_: V, field: PropertyKey): unknown {
    this.map.readField(this, field);
    return this.now?.[field as keyof V];
  }

  has(_: V, field: PropertyKey): boolean {
    this.map.readField(this, field);
    return this.now !== undefined && field in this.now;
  }

  ownKeys(): ArrayLike<string | symbol> {
    this.map.readAllFields(this);
    return Reflect.ownKeys(this.now ?? {});
  }

  getOwnPropertyDescriptor(_: V, field: PropertyKey): PropertyDescriptor | undefined {
    this.map.readField(this, field);
    const own = this.now && Reflect.getOwnPropertyDescriptor(this.now, field);
    return own && { ...own, configurable: true };
  }
}

/**
 * A map whose readers are noticed by the fields of its entries that they look at; those who go through all of it, by
 * the fields they look at in any entry. What is handed out for an entry stays the same while its text changes and always
 * says what the newest text says. So what was made of entries holds them as they are now, and is made again only where
 * something differs that was looked at. It is for whoever has one season at a time.
 */
export class WatchedEntries<V extends object> extends ReadMap<V> {
  private readonly fields = new Fields();
  private readonly whole = new FieldReaders();
  /** Entries that there are, and such as were asked for in vain. */
  private readonly known = new Map<string, Shown<V>>();
  private shown = new Map<string, V>();
  private now: ReadonlyMap<string, V> = new Map();
  /** Who read last, and whether it goes through all entries. */
  private asked: Dependent | undefined;
  private isThrough = false;

  constructor(
    private readonly noticer: Noticer,
    entries: ReadonlyMap<string, V>,
  ) {
    super();
    this.set(entries);
  }

  /** The entries from now on. Those who looked at what is not the same any more are told. */
  set(next: ReadonlyMap<string, V>): void {
    const last = this.now;
    if (last === next) return;
    this.now = next;
    let isSame = last.size === next.size;
    const order = last.size > 0 ? last.entries() : undefined;
    for (const [key, entry] of next) {
      const before = order?.next().value;
      // Mostly the same key stands in the same place, and need not be looked up.
      const isInPlace = before !== undefined && before[0] === key;
      if (!isInPlace) isSame = false;
      if ((isInPlace ? before[1] : last.get(key)) !== entry) this.replace(key, entry);
    }
    this.asked = undefined;
    if (isSame) return;
    for (const key of last.keys()) if (!next.has(key)) this.remove(key);
    for (const [key, one] of this.known) if (!one.now && one.isEmpty) this.known.delete(key);
    this.whole.changed(ALL);
    this.shown = new Map();
    for (const key of next.keys()) this.shown.set(key, this.entryOf(key).entry);
  }

  private replace(key: string, entry: V): void {
    const one = this.entryOf(key);
    const differing = one.now ? this.fields.differing(one.now, entry) : ALL;
    one.now = entry;
    one.changed(differing);
    this.whole.changed(differing);
  }

  private remove(key: string): void {
    const one = this.known.get(key);
    one?.changed(ALL);
    // Whoever still holds the entry holds what it said last.
    this.known.delete(key);
  }

  private entryOf(key: string): Shown<V> {
    let one = this.known.get(key);
    if (!one) {
      one = new Shown<V>(undefined, this);
      this.known.set(key, one);
    }
    return one;
  }

  readField(ofEntry: FieldReaders, field: PropertyKey): void {
    const { reader } = this.noticer;
    if (!reader) return;
    const readers = this.goesThrough(reader) ? this.whole : ofEntry;
    readers.read(reader, this.fields.bitOf(field));
  }

  readAllFields(ofEntry: FieldReaders): void {
    const { reader } = this.noticer;
    if (reader) (this.goesThrough(reader) ? this.whole : ofEntry).read(reader, ALL);
  }

  /** The entry as it is written now, for one who is made again when any of it changes. */
  written(key: string): V | undefined {
    const { reader } = this.noticer;
    if (reader) this.entryOf(key).read(reader, ALL);
    return this.now.get(key);
  }

  get(key: string): V | undefined {
    this.readKey(key);
    return this.shown.get(key);
  }

  has(key: string): boolean {
    this.readKey(key);
    return this.shown.has(key);
  }

  protected all(): ReadonlyMap<string, V> {
    const { reader } = this.noticer;
    if (reader) {
      this.whole.read(reader, PRESENCE);
      this.asked = reader;
      this.isThrough = true;
    }
    return this.shown;
  }

  /** Whether the reader goes through all entries. */
  private goesThrough(reader: Dependent): boolean {
    if (reader !== this.asked) {
      this.asked = reader;
      this.isThrough = this.whole.hasReader(reader);
    }
    return this.isThrough;
  }

  private readKey(key: string): void {
    const { reader } = this.noticer;
    if (reader && !this.goesThrough(reader)) this.entryOf(key).read(reader, PRESENCE);
  }
}
