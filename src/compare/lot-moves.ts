import type { Differing } from './differing';
import type { Field } from './fields';
import { placesOf, toldKey } from './places';
import type { PlanChange, Thing } from './types';

interface Part {
  readonly fill: Thing;
  readonly field: Field;
  /** Bins more, or fewer below 0, than in the old plan. */
  left: number;
}

/**
 * Bins of a lot that are fewer in one fill and more in another: moved, as many as went and came. What is over is told
 * as a change of that fill's bins. `told` names the fields that need no change of their own.
 */
export function lotMoves(differing: readonly Differing[]): {
  readonly changes: PlanChange[];
  readonly told: ReadonlySet<string>;
} {
  const byLot = partsByLot(differing);
  const changes: PlanChange[] = [];
  const told = new Set<string>();
  for (const [lot, parts] of byLot) {
    const from = parts.filter(({ left }) => left < 0);
    const to = parts.filter(({ left }) => left > 0);
    for (const giver of from)
      for (const taker of to) {
        const bins = Math.min(-giver.left, taker.left);
        if (bins <= 0) continue;
        giver.left += bins;
        taker.left -= bins;
        changes.push({
          kind: 'lot-moved',
          things: [{ kind: 'lots', id: lot }, giver.fill, taker.fill],
          amount: { value: bins, unit: 'bins' },
          ...placesOf(giver.field.at, taker.field.at),
        });
      }
    for (const { fill, left } of parts) if (left === 0) told.add(toldKey(fill, `lots.${lot}`));
  }
  return { changes, told };
}

function partsByLot(differing: readonly Differing[]): Map<string, Part[]> {
  const byLot = new Map<string, Part[]>();
  for (const { thing, old, now, oldFields, nowFields, paths } of differing) {
    if (thing.kind !== 'fills') continue;
    // A fill that came or went is told as a whole, but the bins it took over or left behind are moved all the same.
    const own = old && now ? paths : [...oldFields.keys(), ...nowFields.keys()];
    for (const path of own) {
      if (!path.startsWith('lots.')) continue;
      const [before, after] = [oldFields.get(path), nowFields.get(path)];
      const field = after ?? before;
      if (!field) continue;
      const lot = path.slice('lots.'.length);
      const part: Part = { fill: thing, field, left: bins(after) - bins(before) };
      byLot.set(lot, [...(byLot.get(lot) ?? []), part]);
    }
  }
  return byLot;
}

function bins(field: Field | undefined): number {
  return typeof field?.value === 'number' ? field.value : 0;
}
