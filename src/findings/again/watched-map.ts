import { areOld, isAmong, type Noticer, type Readers, tellAll, withReader } from './cells';
import { ReadMap } from './read-map';
import { WatchedEntries } from './watched-entries';

/** So many keys that there are not may be remembered. */
const MANY_IN_VAIN = 100;

/** A map whose readers are noticed: by key, or as a whole where its entries are gone through. */
export class WatchedMap<V> extends ReadMap<V> {
  private whole: Readers;
  private readonly byKey = new Map<string, Readers>();

  constructor(
    private readonly noticer: Noticer,
    private now: ReadonlyMap<string, V>,
  ) {
    super();
  }

  /** The entries from now on. Those who looked at what is not the same any more are told. */
  set(next: ReadonlyMap<string, V>): void {
    const last = this.now;
    if (last === next) return;
    this.now = next;
    let isSame = last.size === next.size;
    const order = last.entries();
    for (const [key, value] of next) {
      const before = order.next().value;
      // Mostly the same key stands in the same place, and need not be looked up.
      const isInPlace = before !== undefined && before[0] === key;
      if (!isInPlace) isSame = false;
      if ((isInPlace ? before[1] : last.get(key)) === value) continue;
      isSame = false;
      this.tell(key);
    }
    if (isSame) return;
    for (const key of last.keys()) if (!next.has(key)) this.tell(key);
    tellAll(this.whole);
    this.whole = undefined;
    if (this.byKey.size > 2 * next.size + MANY_IN_VAIN) this.dropOld();
  }

  /** Keys that were asked for in vain by those who are gone. */
  private dropOld(): void {
    for (const [key, readers] of this.byKey) if (areOld(readers)) this.byKey.delete(key);
  }

  private tell(key: string): void {
    const readers = this.byKey.get(key);
    if (readers === undefined) return;
    tellAll(readers);
    this.byKey.delete(key);
  }

  get(key: string): V | undefined {
    this.readKey(key);
    return this.now.get(key);
  }

  has(key: string): boolean {
    this.readKey(key);
    return this.now.has(key);
  }

  protected all(): ReadonlyMap<string, V> {
    const { reader } = this.noticer;
    if (reader && reader !== this.whole) this.whole = withReader(this.whole, reader);
    return this.now;
  }

  private readKey(key: string): void {
    const { reader } = this.noticer;
    if (!reader || isAmong(this.whole, reader)) return;
    const readers = this.byKey.get(key);
    if (readers !== reader) this.byKey.set(key, withReader(readers, reader));
  }
}

/** The same map where only one entry, or none, is gone through; any may be asked for by its key. */
export class OneOf<V> extends ReadMap<V> {
  private id: string | undefined;
  private readonly only = new Map<string, V>();
  /** Whether that entry, if there is one, stands in `only`. */
  private isThere = false;

  constructor(private readonly map: ReadonlyMap<string, V>) {
    super();
  }

  /** The entry that is gone through from now on. */
  lookAt(id: string): void {
    this.id = id;
    this.only.clear();
    this.isThere = false;
  }

  /** That entry. */
  get looked(): V | undefined {
    return this.id === undefined ? undefined : this.entry(this.id);
  }

  get(key: string): V | undefined {
    return this.map.get(key);
  }

  has(key: string): boolean {
    return this.map.has(key);
  }

  override get size(): number {
    return this.map.size;
  }

  protected all(): ReadonlyMap<string, V> {
    const { id, only } = this;
    if (this.isThere) return only;
    const value = id === undefined ? undefined : this.entry(id);
    if (id !== undefined && value !== undefined) only.set(id, value);
    this.isThere = true;
    return only;
  }

  /** The entry itself, not one that is noticed field by field: whoever looks at it alone is quickly made again. */
  private entry(id: string): V | undefined {
    const { map } = this;
    return map instanceof WatchedEntries ? (map as WatchedEntries<V & object>).written(id) : map.get(id);
  }
}
