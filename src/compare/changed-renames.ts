import type { Entry, Plan } from '../plan/model';
import { type Field, fieldsOf, sameValue } from './fields';
import { type Names, translated } from './names';
import { extentOf, type MapKind, overlaps, thingKey, thingsOf } from './things';

/**
 * The share of values that must be the same for one to be taken for the other renamed. What stands in the same place of
 * the plant needs none: a scrubber that all rooms of a gone one hang on is that scrubber. Kinds that are not here have
 * nothing that names them, by which they could be known.
 */
const LEAST_ALIKE: Partial<Record<MapKind, number>> = {
  bins: 0.5,
  scrubbers: 0,
  nitrogen: 0,
  refrigeration: 0,
  rooms: 0.5,
  varieties: 0.5,
  regimes: 0.5,
  lots: 0.6,
};

/** What nothing of both plans names must be nearly the same, in so many values at least: a room renamed with its fill. */
const NEARLY_THE_SAME = 0.8;
const ENOUGH_VALUES = 5;

interface Unpaired {
  readonly gone: readonly Entry[];
  readonly come: readonly Entry[];
}

/**
 * Things that were renamed and changed at once, in pairs: the same things that stand in both plans name the one in the
 * old plan and the other in the new one, or nothing does, and they are alike enough. Where two could be meant, neither is taken. The
 * plans in the other order give the same pairs.
 */
export function changedRenames(
  kind: MapKind,
  plans: { readonly old: Plan; readonly now: Plan },
  { gone, come }: Unpaired,
  names: Names,
): (readonly [Entry, Entry])[] {
  const least = LEAST_ALIKE[kind];
  if (least === undefined || gone.length === 0 || come.length === 0) return [];
  const before = namersOf(kind, plans.old, plans.now);
  const after = namersOf(kind, plans.now, plans.old);
  const mayBe = (one: Entry, other: Entry) => {
    const [named, namedNow] = [before.get(one.id) ?? '', after.get(other.id) ?? ''];
    if (named !== namedNow) return false;
    const fields = [fieldsOf(translated(one, kind, names)), fieldsOf(other)] as const;
    if (named !== '') return alike(...fields) >= least;
    return fields[0].size >= ENOUGH_VALUES && alike(...fields) >= NEARLY_THE_SAME;
  };
  return gone.flatMap((one) => {
    const [found, another] = come.filter((other) => mayBe(one, other));
    const isOnly = found && !another && gone.every((other) => other === one || !mayBe(other, found));
    return isOnly ? [[one, found] as const] : [];
  });
}

/** By name: all that names it in the plan and stands in the other plan too, as text. */
function namersOf(kind: MapKind, plan: Plan, other: Plan): Map<string, string> {
  const known = new Set(thingsOf(other).map(({ thing }) => thingKey(thing)));
  const extents = thingsOf(plan)
    .map(({ thing, value }) => ({ key: thingKey(thing), at: extentOf(value) }))
    .filter(({ key }) => known.has(key));
  const namers = new Map<string, Set<string>>();
  for (const { section, id, at } of plan.references) {
    if (section !== kind) continue;
    const namer = extents.find((one) => overlaps(at, one.at))?.key;
    if (namer !== undefined) namers.set(id, (namers.get(id) ?? new Set()).add(namer));
  }
  return new Map([...namers].map(([id, keys]) => [id, [...keys].sort().join('\n')]));
}

/** Share of the given values that are the same, of those of both. */
function alike(a: ReadonlyMap<string, Field>, b: ReadonlyMap<string, Field>): number {
  const given = (fields: ReadonlyMap<string, Field>) => [...fields].filter(([, { isGiven }]) => isGiven);
  const [one, other] = [given(a), given(b)];
  const same = one.filter(([path, field]) => {
    const found = b.get(path);
    return found?.isGiven && sameValue(field, found);
  });
  return one.length + other.length === 0 ? 1 : (2 * same.length) / (one.length + other.length);
}
