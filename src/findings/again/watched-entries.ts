import type { Dependent, Noticer } from './cells';
import { ReadMap } from './read-map';

/** Fields are told apart by the bits of a number: as many as it has, and the last for all the others. */
const MOST_FIELDS = 31;

/** Who looked at which fields of something. */
class FieldReaders {
  private readonly readers = new Map<Dependent, number>();
  /** Who read last, and all the fields it has: it mostly reads on. */
  private last: Dependent | undefined;
  private lastSeen = 0;

  has(reader: Dependent): boolean {
    return reader === this.last || this.readers.has(reader);
  }

  read(reader: Dependent, fields: number): void {
    if (reader === this.last && (this.lastSeen & fields) === fields) return;
    const seen = this.readers.get(reader);
    if (seen === undefined) reader.sources.add(this);
    this.last = reader;
    this.lastSeen = (seen ?? 0) | fields;
    this.readers.set(reader, this.lastSeen);
  }

  delete(reader: Dependent): void {
    if (reader === this.last) this.last = undefined;
    this.readers.delete(reader);
  }

  changed(fields: number): void {
    for (const [reader, seen] of this.readers) if ((seen & fields) !== 0) reader.isOld = true;
  }

  get isEmpty(): boolean {
    return this.readers.size === 0;
  }
}

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

/** An entry as it is shown: the one of the plan that was read last, whose readers are noticed field by field. */
class Shown<V extends object> implements ProxyHandler<V> {
  readonly readers = new FieldReaders();
  readonly entry: V;

  constructor(
    public now: V | undefined,
    private readonly map: WatchedEntries<V>,
  ) {
    this.entry = new Proxy({} as V, this);
  }

  get(_: V, field: PropertyKey): unknown {
    this.map.readField(this.readers, field);
    return this.now?.[field as keyof V];
  }

  has(_: V, field: PropertyKey): boolean {
    this.map.readField(this.readers, field);
    return this.now !== undefined && field in this.now;
  }

  ownKeys(): ArrayLike<string | symbol> {
    this.map.readAllFields(this.readers);
    return Reflect.ownKeys(this.now ?? {});
  }

  getOwnPropertyDescriptor(_: V, field: PropertyKey): PropertyDescriptor | undefined {
    this.map.readField(this.readers, field);
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
    const order = last.keys();
    for (const [key, entry] of next) {
      if (order.next().value !== key) isSame = false;
      if (last.get(key) !== entry) this.replace(key, entry);
    }
    if (isSame) return;
    for (const key of last.keys()) if (!next.has(key)) this.remove(key);
    for (const [key, one] of this.known) if (!one.now && one.readers.isEmpty) this.known.delete(key);
    this.whole.changed(ALL);
    this.shown = new Map();
    for (const key of next.keys()) this.shown.set(key, this.entryOf(key).entry);
  }

  private replace(key: string, entry: V): void {
    const one = this.entryOf(key);
    const differing = one.now ? this.fields.differing(one.now, entry) : ALL;
    one.now = entry;
    one.readers.changed(differing);
    this.whole.changed(differing);
  }

  private remove(key: string): void {
    const one = this.known.get(key);
    one?.readers.changed(ALL);
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
    const readers = this.whole.has(reader) ? this.whole : ofEntry;
    readers.read(reader, this.fields.bitOf(field));
  }

  readAllFields(ofEntry: FieldReaders): void {
    const { reader } = this.noticer;
    if (reader) (this.whole.has(reader) ? this.whole : ofEntry).read(reader, ALL);
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
    if (reader) this.whole.read(reader, PRESENCE);
    return this.shown;
  }

  private readKey(key: string): void {
    const { reader } = this.noticer;
    if (reader && !this.whole.has(reader)) this.entryOf(key).readers.read(reader, PRESENCE);
  }
}
