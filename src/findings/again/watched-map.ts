import { changed, type Noticer, type Source } from './cells';
import { ReadMap } from './read-map';

/** A map whose readers are noticed: by key, or as a whole where its entries are gone through. */
export class WatchedMap<V> extends ReadMap<V> {
  private readonly whole: Source = new Set();
  private readonly byKey = new Map<string, Source>();

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
    const order = last.keys();
    for (const [key, value] of next) {
      if (order.next().value !== key) isSame = false;
      if (last.get(key) === value) continue;
      isSame = false;
      changed(this.byKey.get(key));
    }
    if (isSame) return;
    for (const key of last.keys()) if (!next.has(key)) changed(this.byKey.get(key));
    changed(this.whole);
    for (const [key, source] of this.byKey) if (source.size === 0) this.byKey.delete(key);
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
    this.noticer.read(this.whole);
    return this.now;
  }

  private readKey(key: string): void {
    if (this.noticer.hasRead(this.whole)) return;
    let source = this.byKey.get(key);
    if (!source) {
      source = new Set();
      this.byKey.set(key, source);
    }
    this.noticer.read(source);
  }
}

/** The same map where only one entry, or none, is gone through; any may be asked for by its key. */
export class OneOf<V> extends ReadMap<V> {
  private id: string | undefined;
  private only: Map<string, V> | undefined;

  constructor(private readonly map: ReadonlyMap<string, V>) {
    super();
  }

  /** The entry that is gone through from now on. */
  lookAt(id: string): void {
    this.id = id;
    this.only = undefined;
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
    if (!this.only) {
      const { id } = this;
      const value = id === undefined ? undefined : this.map.get(id);
      this.only = new Map(id === undefined || value === undefined ? [] : [[id, value]]);
    }
    return this.only;
  }
}
