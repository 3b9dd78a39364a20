import { itemName } from '../plan/check/item-kinds';
import type { Entry, Plan } from '../plan/model';
import { mapOfSection } from '../plan/sections';
import type { PlaceNode, Span } from '../plan/span';
import type { Thing, ThingKind } from './types';

/** Kinds of which a plan has many, with the plan's own name for their map. */
export const mapNames = mapOfSection satisfies Partial<Record<ThingKind, keyof Plan>>;

export type MapKind = keyof typeof mapNames;
export type SingleKind = Exclude<ThingKind, MapKind>;

/** In the order in which one may name another: what is named comes first. */
export const mapKinds = Object.keys(mapNames) as readonly MapKind[];
export const singleKinds: readonly SingleKind[] = ['season', 'packing', 'policy'];

export function isMapKind(kind: ThingKind): kind is MapKind {
  return kind in mapNames;
}

export function thingName({ kind, id }: Thing): string {
  return isMapKind(kind) ? `${itemName(kind)} ${id}` : itemName(kind);
}

export function thingKey({ kind, id }: Thing): string {
  return `${kind}/${id}`;
}

/** What any thing of a plan has: where it is named, where its values stand. */
export interface PlanThing {
  readonly at: Span | undefined;
  readonly places: PlaceNode | undefined;
}

export function entriesOfKind(plan: Plan, kind: MapKind): ReadonlyMap<string, Entry> {
  return plan[mapNames[kind]];
}

export function thingIn(plan: Plan, { kind, id }: Thing): PlanThing | undefined {
  return isMapKind(kind) ? entriesOfKind(plan, kind).get(id) : plan[kind];
}

/** Everything of a plan, with its values. */
export function thingsOf(plan: Plan): { readonly thing: Thing; readonly value: PlanThing }[] {
  const entries = mapKinds.flatMap((kind) =>
    [...entriesOfKind(plan, kind)].map(([id, value]) => ({ thing: { kind, id }, value })),
  );
  const single = singleKinds.flatMap((kind) => {
    const value = plan[kind];
    return value ? [{ thing: { kind, id: kind }, value }] : [];
  });
  return [...entries, ...single];
}

/** The text a thing takes up, from its key to the end of its last value. */
export function extentOf({ at, places }: PlanThing): Span | undefined {
  if (!at) return places?.span;
  const span = places?.span;
  if (!span || span.file !== at.file) return at;
  return { file: at.file, start: Math.min(at.start, span.start), end: Math.max(at.end, span.end) };
}

/** True where two stretches of text have a character or an edge in common. */
export function overlaps(one: Span, other: Span | undefined): boolean {
  return other !== undefined && one.file === other.file && one.start <= other.end && other.start <= one.end;
}
