/** A map that is read through what `all` gives, which may notice who reads. What it holds is for the class to say. */
export abstract class ReadMap<V> implements ReadonlyMap<string, V> {
  abstract get(key: string): V | undefined;
  abstract has(key: string): boolean;

  /** The entries, for one who goes through them. */
  protected abstract all(): ReadonlyMap<string, V>;

  get size(): number {
    return this.all().size;
  }

  forEach(each: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    for (const [key, value] of this) each(value, key, this);
  }

  entries(): MapIterator<[string, V]> {
    return this.all().entries();
  }

  keys(): MapIterator<string> {
    return this.all().keys();
  }

  values(): MapIterator<V> {
    return this.all().values();
  }

  [Symbol.iterator](): MapIterator<[string, V]> {
    return this.entries();
  }
}
