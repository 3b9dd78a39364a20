import type { MapKind } from './things';
import type { ThingKind } from './types';

/** New names by kind and old name. */
export class Names {
  private readonly names = new Map<string, string>();

  set(kind: ThingKind, before: string, after: string): void {
    this.names.set(`${kind}/${before}`, after);
  }

  get isEmpty(): boolean {
    return this.names.size === 0;
  }

  /** The name a thing of the old plan has in the new one. */
  of(kind: ThingKind, id: string): string {
    return this.names.get(`${kind}/${id}`) ?? id;
  }
}

/** What the values under a key name. */
const NAMED_BY_KEY: Readonly<Record<string, MapKind>> = {
  binType: 'bins',
  scrubber: 'scrubbers',
  nitrogen: 'nitrogen',
  refrigerationGroup: 'refrigeration',
  variety: 'varieties',
  varieties: 'varieties',
  packout: 'varieties',
  regime: 'regimes',
  room: 'rooms',
  beforeRoom: 'rooms',
  lot: 'lots',
  first: 'fills',
  later: 'fills',
};

/** An old entry in the words of the new plan: whatever it names has its new name. The same object without renames. */
export function translated<T extends object>(value: T, kind: ThingKind, names: Names): T {
  return names.isEmpty ? value : (translate(value, kind, '', names) as T);
}

function translate(value: unknown, kind: ThingKind, key: string, names: Names): unknown {
  if (typeof value !== 'object' || value === null || 'origin' in value) return value;
  const named = key === 'like' ? kind : NAMED_BY_KEY[key];
  if (Array.isArray(value)) return value.map((one) => translate(one, kind, key, names));
  if (value instanceof Map)
    return new Map(
      [...value].map(([name, one]) =>
        key === 'packout'
          ? [names.of('varieties', String(name)), translate(one, kind, '', names)]
          : [name, translate(one, kind, '', names)],
      ),
    );
  if (named !== undefined && 'value' in value && typeof value.value === 'string')
    return { ...value, value: names.of(named, value.value) };
  const inner = Object.entries(value).map(([name, one]) => [
    name,
    name === 'at' || name === 'places' ? one : translate(one, kind, name, names),
  ]);
  return Object.fromEntries(inner);
}
