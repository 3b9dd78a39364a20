import type { Entry, Plan } from '../plan/model';
import { changedRenames } from './changed-renames';
import { type Field, fieldsOf } from './fields';
import { Names, translated } from './names';
import { entriesOfKind, type MapKind, mapKinds } from './things';
import type { Rename } from './types';

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
