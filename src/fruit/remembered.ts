/** What is found by a name, found once: always the very same afterwards. */
export function remembered<T>(find: (name: string) => T): (name: string) => T {
  const found = new Map<string, T>();
  return (name) => {
    const known = found.get(name);
    if (known !== undefined) return known;
    const value = find(name);
    found.set(name, value);
    return value;
  };
}
