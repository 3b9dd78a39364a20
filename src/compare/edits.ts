import type { Fill, Plan, Room } from '../plan/model';
import type { Aligned } from './align';
import { productsTouched } from './products-of';
import { thingKey } from './things';
import type { Edit, PlanChange, Thing } from './types';

/**
 * The changes in edits that stand for themselves. Together go those of one thing, a lot moved with both its fills, a
 * lot's bins with those of its fills, and what came or went with what names it: half of such an edit makes no plan
 * that anybody meant.
 */
export function editsOf(changes: readonly PlanChange[], { now, differing, assemble }: Aligned): Edit[] {
  const groups = new Groups();
  for (const { things } of changes) {
    const own = things.filter((thing) => differing.has(thingKey(thing)));
    for (const thing of own) groups.join(own[0] as Thing, thing);
  }
  const old = assemble(() => false);
  for (const { thing, old: before, now: after } of differing.values()) {
    groups.join(thing, thing);
    if (before && after) continue;
    for (const naming of namedBy(after ? now : old, thing))
      if (differing.has(thingKey(naming))) groups.join(thing, naming);
  }
  for (const { thing, paths } of differing.values()) {
    if (thing.kind !== 'lots' || !paths.some((path) => path === 'receivedBins' || path === 'expectedBins'))
      continue;
    for (const { thing: fill, paths: own } of differing.values())
      if (fill.kind === 'fills' && own.includes(`lots.${thing.id}`)) groups.join(thing, fill);
  }
  return groups.all().flatMap((entries) => {
    const keys = new Set(entries.map(thingKey));
    const [first, ...rest] = changes.filter(({ things }) =>
      things.some((thing) => keys.has(thingKey(thing))),
    );
    if (!first) return [];
    const products = new Map([first, ...rest].map((one) => [one, productsTouched(one, [old, now])] as const));
    return [{ changes: [first, ...rest] as const, entries, products }];
  });
}

/** Things that name the given one, in a plan that has it. */
function namedBy(plan: Plan, { kind, id }: Thing): Thing[] {
  switch (kind) {
    case 'lots':
      return fills(plan, (fill) => fill.lots.some(({ lot }) => lot.value === id));
    case 'rooms':
      return fills(plan, (fill) => fill.room?.value === id);
    case 'regimes':
      return fills(plan, (fill) => fill.regime?.value === id);
    case 'bins':
      return rooms(plan, ({ binType }) => binType?.value === id);
    case 'scrubbers':
      return rooms(plan, ({ scrubber }) => scrubber?.value === id);
    case 'nitrogen':
      return rooms(plan, ({ nitrogen }) => nitrogen?.value === id);
    case 'refrigeration':
      return rooms(plan, ({ refrigerationGroup }) => refrigerationGroup?.value === id);
    default:
      return [];
  }
}

function fills(plan: Plan, holds: (fill: Fill) => boolean): Thing[] {
  return [...plan.fills.values()].filter(holds).map(({ id }) => ({ kind: 'fills', id }));
}

function rooms(plan: Plan, holds: (room: Room) => boolean): Thing[] {
  return [...plan.rooms.values()].filter(holds).map(({ id }) => ({ kind: 'rooms', id }));
}

/** Things joined into groups, each in the order in which they came. */
class Groups {
  private readonly groupOf = new Map<string, Set<string>>();
  private readonly things = new Map<string, Thing>();

  join(one: Thing, other: Thing): void {
    const [a, b] = [this.group(one), this.group(other)];
    if (a === b) return;
    for (const key of b) {
      a.add(key);
      this.groupOf.set(key, a);
    }
  }

  all(): Thing[][] {
    return [...new Set(this.groupOf.values())].map((keys) =>
      [...keys].flatMap((key) => this.things.get(key) ?? []),
    );
  }

  private group(thing: Thing): Set<string> {
    const key = thingKey(thing);
    const known = this.groupOf.get(key);
    if (known) return known;
    const made = new Set([key]);
    this.groupOf.set(key, made);
    this.things.set(key, thing);
    return made;
  }
}
