/** What stands in the place of a value when data is compared; `undefined` leaves the value out. */
export type InPlace = (key: string, value: unknown) => unknown;

/**
 * Where two pieces of data first differ, as the steps to that place and both values; undefined where they say the same.
 * Maps and lists count in their order, the keys of other objects in any; a key without a value is as one that is not
 * there. What it does not walk twice is the same object: a plan's entries share a great deal.
 */
export function difference(a: unknown, b: unknown, inPlace?: InPlace): string | undefined {
  return differ(a, b, '', inPlace ?? ((_key, value) => value));
}

function differ(a: unknown, b: unknown, at: string, inPlace: InPlace): string | undefined {
  if (Object.is(a, b)) return undefined;
  // What functions do shows in the figures that are made with them.
  if (typeof a === 'function' && typeof b === 'function') return undefined;
  if (isShortened(a) || isShortened(b)) return differ(inFull(a), inFull(b), at, inPlace);
  if (!isObject(a) || !isObject(b)) return `${at}: ${shown(a)} and ${shown(b)}`;
  if (a instanceof Map && b instanceof Map) return ofLists([...a], [...b], at, inPlace);
  if (Array.isArray(a) && Array.isArray(b)) return ofLists(a, b, at, inPlace);
  if (Array.isArray(a) || Array.isArray(b) || a instanceof Map || b instanceof Map)
    return `${at}: ${shown(a)} and ${shown(b)}`;
  return ofObjects(a, b, at, inPlace);
}

/** Data that says more than it holds. */
function isShortened(value: unknown): value is { toJSON(): unknown } {
  return isObject(value) && typeof value.toJSON === 'function';
}

function inFull(value: unknown): unknown {
  return isShortened(value) ? value.toJSON() : value;
}

function ofLists(
  a: readonly unknown[],
  b: readonly unknown[],
  at: string,
  inPlace: InPlace,
): string | undefined {
  if (a.length !== b.length) return `${at}: ${a.length} and ${b.length} of them`;
  for (let index = 0; index < a.length; index++) {
    const key = String(index);
    const found = differ(inPlace(key, a[index]), inPlace(key, b[index]), `${at}/${key}`, inPlace);
    if (found) return found;
  }
  return undefined;
}

function ofObjects(
  a: Readonly<Record<string, unknown>>,
  b: Readonly<Record<string, unknown>>,
  at: string,
  inPlace: InPlace,
): string | undefined {
  // What either holds, and what the other's class may give for it.
  for (const key of new Set([...Object.keys(a), ...Object.keys(b)])) {
    if (a[key] === b[key]) continue;
    if (key in a && key in b) {
      const found = differ(inPlace(key, a[key]), inPlace(key, b[key]), `${at}/${key}`, inPlace);
      if (found) return found;
    } else {
      const only = inPlace(key, a[key] ?? b[key]);
      if (only !== undefined) return `${at}/${key}: only one has ${shown(only)}`;
    }
  }
  return undefined;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null;
}

function shown(value: unknown): string {
  const text = value instanceof Map ? JSON.stringify([...value]) : String(JSON.stringify(value));
  return text.length > 300 ? `${text.slice(0, 300)}…` : text;
}
