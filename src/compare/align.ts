import type { Allowance, Demand, Entry, Plan, PlanText, Reference } from '../plan/model';
import type { Span } from '../plan/span';
import { isWanted, wantsTheSame } from './demand-change';
import type { Differing } from './differing';
import { areAlike, differingPaths, type Field, fieldsOf } from './fields';
import { type Names, translated } from './names';
import { findRenames } from './renames';
import {
  entriesOfKind,
  extentOf,
  type MapKind,
  mapKinds,
  mapNames,
  overlaps,
  type PlanThing,
  singleKinds,
  thingKey,
  thingsOf,
} from './things';
import type { Rename, Thing } from './types';

/** Two plans side by side, the old one in the words of the new one. */
export interface Aligned {
  readonly now: Plan;
  readonly renames: readonly Rename[];
  /** By kind and name. */
  readonly differing: ReadonlyMap<string, Differing>;
  /**
   * The old plan with those of its differing things from the new one for which `isNew` holds. Things that say the same
   * are the new plan's own, in its order: what is computed of it is computed of the same objects.
   */
  assemble(isNew: (thing: Thing) => boolean): Plan;
}

export function align(old: Plan, now: Plan): Aligned {
  const { names, renames } = findRenames(old, now);
  const differing = differencesOf(old, now, names);
  const texts = textsOf(old, now);
  const parts = listParts(old, now, names, differing);
  const assemble = (isNew: (thing: Thing) => boolean): Plan => {
    const picked = new Map([...differing].map(([key, { thing }]) => [key, isNew(thing)]));
    const pick = <T>(key: string, before: T, after: T): T => (picked.get(key) === false ? before : after);
    const maps = Object.fromEntries(
      mapKinds.map((kind) => [mapNames[kind], mapOf(kind, now, differing, picked)]),
    ) as unknown as Pick<Plan, (typeof mapNames)[MapKind]>;
    const singles = Object.fromEntries(
      singleKinds.map((kind) => {
        const one = differing.get(`${kind}/${kind}`);
        return [kind, one ? pick(`${kind}/${kind}`, one.old, one.now) : now[kind]];
      }),
    ) as unknown as Pick<Plan, 'season' | 'packing' | 'policy'>;
    const chosen = [...parts].map(([key, { before, after }]) => pick(key, before, after));
    return {
      ...now,
      ...maps,
      ...singles,
      files: texts,
      references: chosen.flatMap(({ references }) => references),
      allowances: chosen.flatMap(({ allowances }) => allowances),
      problems: old.problems,
    };
  };
  return { now, renames, differing, assemble };
}

function differencesOf(old: Plan, now: Plan, names: Names): Map<string, Differing> {
  const allowedOld = allowedIn(old);
  const allowedNow = allowedIn(now);
  const before = new Map(
    thingsOf(old).map(({ thing, value }) => {
      const named: Thing = { kind: thing.kind, id: names.of(thing.kind, thing.id) };
      const renamed = translated(value, thing.kind, names);
      const own = named.id === thing.id ? renamed : { ...renamed, id: named.id };
      return [
        thingKey(named),
        { thing: named, value: own, allowed: allowedOld.get(thingKey(thing)) },
      ] as const;
    }),
  );
  const differing = new Map<string, Differing>();
  const add = (
    thing: Thing,
    one: PlanThing | undefined,
    other: PlanThing | undefined,
    allowed: AllowedPair,
  ) => {
    if (allowed.old === allowed.now && areAlike(one, other)) return;
    const oldFields = one ? withAllowed(fieldsOf(one), allowed.old) : new Map();
    const nowFields = other ? withAllowed(fieldsOf(other), allowed.now) : new Map();
    const paths = differingIn(thing, one, other, differingPaths(oldFields, nowFields));
    if (one && other && paths.length === 0) return;
    const sides = { ...(one && { old: one }), ...(other && { now: other }) };
    differing.set(thingKey(thing), { thing, ...sides, oldFields, nowFields, paths });
  };
  for (const { thing, value } of thingsOf(now)) {
    const key = thingKey(thing);
    const known = before.get(key);
    before.delete(key);
    add(thing, known?.value, value, { old: known?.allowed, now: allowedNow.get(key) });
  }
  for (const { thing, value, allowed } of before.values())
    add(thing, value, undefined, { old: allowed, now: undefined });
  return differing;
}

/** A demand that wants the same in each week, written otherwise, does not differ by that. */
function differingIn(
  { kind }: Thing,
  old: PlanThing | undefined,
  now: PlanThing | undefined,
  paths: string[],
): string[] {
  if (kind !== 'demand' || !old || !now || !wantsTheSame(old as Demand, now as Demand)) return paths;
  return paths.filter((path) => !isWanted(path));
}

interface AllowedPair {
  readonly old: string | undefined;
  readonly now: string | undefined;
}

/** Codes of the findings that comments allow in each thing; the same text for the same codes. */
function allowedIn(plan: Plan): Map<string, string> {
  const codes = new Map<string, string[]>();
  if (plan.allowances.length === 0) return new Map();
  const extents = thingsOf(plan).map(({ thing, value }) => ({ key: thingKey(thing), at: extentOf(value) }));
  for (const { code, covers } of plan.allowances) {
    const key = extents.find(({ at }) => overlaps(covers, at))?.key;
    if (key !== undefined) codes.set(key, [...(codes.get(key) ?? []), code]);
  }
  return new Map([...codes].map(([key, list]) => [key, list.sort().join(', ')]));
}

/** The name under which `fieldsOf` would never give a value. */
export const ALLOWED = 'lotwright: allow';

function withAllowed(fields: Map<string, Field>, codes: string | undefined): Map<string, Field> {
  if (codes !== undefined) fields.set(ALLOWED, { value: codes, isGiven: true });
  return fields;
}

function mapOf(
  kind: MapKind,
  now: Plan,
  differing: ReadonlyMap<string, Differing>,
  picked: ReadonlyMap<string, boolean>,
): ReadonlyMap<string, Entry> {
  const own = [...differing].filter(([, { thing }]) => thing.kind === kind);
  const all = entriesOfKind(now, kind);
  if (own.every(([key]) => picked.get(key) === true)) return all;
  const entries = new Map<string, Entry>();
  for (const [id, entry] of all) {
    const one = differing.get(`${kind}/${id}`);
    const value = one && picked.get(`${kind}/${id}`) === false ? one.old : entry;
    if (value) entries.set(id, value as Entry);
  }
  for (const [key, { thing, old, now: after }] of own)
    if (!after && picked.get(key) === false) entries.set(thing.id, old as Entry);
  return entries;
}

interface Lists {
  readonly references: readonly Reference[];
  readonly allowances: readonly Allowance[];
}

/** References and allowances of each differing thing in both plans; under '' those of all others, as the new plan has them. */
function listParts(
  old: Plan,
  now: Plan,
  names: Names,
  differing: ReadonlyMap<string, Differing>,
): Map<string, { readonly before: Lists; readonly after: Lists }> {
  const inOld = splitLists(
    old,
    [...differing].map(([key, one]) => ({ key, at: one.old && extentOf(one.old) })),
  );
  const inNow = splitLists(
    now,
    [...differing].map(([key, one]) => ({ key, at: one.now && extentOf(one.now) })),
  );
  const others = inNow.get('') ?? NOTHING;
  const parts = new Map([['', { before: others, after: others }]]);
  for (const key of differing.keys()) {
    const before = inOld.get(key) ?? NOTHING;
    const references = before.references.map((one) => ({ ...one, id: names.of(one.section, one.id) }));
    parts.set(key, { before: { ...before, references }, after: inNow.get(key) ?? NOTHING });
  }
  return parts;
}

const NOTHING: Lists = { references: [], allowances: [] };

function splitLists(
  plan: Plan,
  extents: readonly { readonly key: string; readonly at: PlanThing['at'] }[],
): Map<string, Lists> {
  const lists = new Map<string, { references: Reference[]; allowances: Allowance[] }>();
  const of = (key: string) => {
    const known = lists.get(key) ?? { references: [], allowances: [] };
    lists.set(key, known);
    return known;
  };
  const keyOf = (at: Span) => extents.find((one) => overlaps(at, one.at))?.key ?? '';
  for (const reference of plan.references) of(keyOf(reference.at)).references.push(reference);
  for (const allowance of plan.allowances) of(keyOf(allowance.covers)).allowances.push(allowance);
  return lists;
}

/** The texts of both plans. Of two files of one path that of the new plan is shown. */
function textsOf(old: Plan, now: Plan): ReadonlyMap<string, PlanText> {
  return new Map([...old.files, ...now.files]);
}
