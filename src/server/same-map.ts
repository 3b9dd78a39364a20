/** Whether both have the same keys, and for each the very same value. */
export function isSameMap<V>(a: ReadonlyMap<string, V>, b: ReadonlyMap<string, V>): boolean {
  return a.size === b.size && [...a].every(([key, value]) => b.get(key) === value);
}
