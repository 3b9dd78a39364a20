import type { Entry, Plan } from '../plan/model';
import { changedRenames } from './changed-renames';
import { type Field, fieldsOf } from './fields';
import { entriesOfKind, type MapKind, mapKinds } from './things';
import type { Rename, ThingKind } from './types';

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

/**
 * Things that have gone and things that have come with the very same content, in pairs: renamed. What names them is
 * put in the new words first, so that a room renamed together with its fill is known in both. What has neither pair may
 * have been renamed and changed at once: see `changedRenames`.
 */
export function findRenames(
  old: Plan,
  now: Plan,
): { readonly names: Names; readonly renames: readonly Rename[] } {
  const names = new Names();
  const renames: Rename[] = [];
  const renamed = (kind: MapKind, before: Entry, after: Entry) => {
    names.set(kind, before.id, after.id);
    renames.push({ kind, before: before.id, after: after.id });
  };
  for (const kind of mapKinds) {
    const [before, after] = [entriesOfKind(old, kind), entriesOfKind(now, kind)];
    const gone = [...before.values()].filter(({ id }) => !after.has(id)).sort(byId);
    const come = new Set([...after.values()].filter(({ id }) => !before.has(id)).sort(byId));
    if (gone.length === 0 || come.size === 0) continue;
    const waiting = new Map<string, Entry[]>();
    for (const entry of come) {
      const text = contentOf(fieldsOf(entry));
      waiting.set(text, [...(waiting.get(text) ?? []), entry]);
    }
    const left: Entry[] = [];
    for (const entry of gone) {
      const found = waiting.get(contentOf(fieldsOf(translated(entry, kind, names))))?.shift();
      if (!found) left.push(entry);
      else {
        renamed(kind, entry, found);
        come.delete(found);
      }
    }
    const pairs = changedRenames(kind, { old, now }, { gone: left, come: [...come] }, names);
    for (const [one, other] of pairs) renamed(kind, one, other);
  }
  return { names, renames };
}

/** Equal for the same content, whatever its order. Numbers to ten digits, so that other units say the same. */
function contentOf(fields: ReadonlyMap<string, Field>): string {
  const lines = [...fields].map(([path, { value, unit }]) => {
    const shown = typeof value === 'number' ? Number(value.toPrecision(10)) : value;
    return `${path}=${shown} ${unit ?? ''}`;
  });
  return lines.sort().join('\n');
}

function byId(a: Entry, b: Entry): number {
  return a.id < b.id ? -1 : a.id > b.id ? 1 : 0;
}
