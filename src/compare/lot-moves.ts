import type { Differing } from './differing';
import type { Field } from './fields';
import { placesOf, toldKey } from './places';
import type { PlanChange, Thing } from './types';

/** What is less is rounding. */
const LEAST = 1e-6;

interface Part {
  readonly fill: Thing;
  readonly field: Field;
  /** Bins more, or fewer below 0, than in the old plan. */
  readonly change: number;
  /** What of it is not told as moved. */
  left: number;
}

/** Bins of lots that went from fill to fill. */
export interface LotMoves {
  readonly changes: readonly PlanChange[];
  /**
   * Bins of each field (`toldKey` of the fill and `lots.G4`) that came or went otherwise, fewer below 0, where others
   * were moved: 0 where there is nothing more to tell of it.
   */
  readonly left: ReadonlyMap<string, number>;
}

/**
 * Bins of a lot that are fewer in one fill and more in another: moved, as many as went and came. What is over is told
 * as a change of that fill's bins, so that each bin is told once.
 */
export function lotMoves(differing: readonly Differing[]): LotMoves {
  const changes: PlanChange[] = [];
  const left = new Map<string, number>();
  for (const [lot, parts] of partsByLot(differing)) {
    const from = parts.filter(({ change }) => change < 0);
    const to = parts.filter(({ change }) => change > 0);
    for (const giver of from)
      for (const taker of to) {
        const bins = Math.min(-giver.left, taker.left);
        if (bins <= LEAST) continue;
        giver.left += bins;
        taker.left -= bins;
        changes.push({
          kind: 'lot-moved',
          things: [{ kind: 'lots', id: lot }, giver.fill, taker.fill],
          amount: { value: bins, unit: 'bins' },
          ...placesOf(giver.field.at, taker.field.at),
        });
      }
    for (const part of parts)
      if (part.left !== part.change)
        left.set(toldKey(part.fill, `lots.${lot}`), Math.abs(part.left) <= LEAST ? 0 : part.left);
  }
  return { changes, left };
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
      const change = bins(after) - bins(before);
      const part: Part = { fill: thing, field, change, left: change };
      byLot.set(lot, [...(byLot.get(lot) ?? []), part]);
    }
  }
  return byLot;
}

function bins(field: Field | undefined): number {
  return typeof field?.value === 'number' ? field.value : 0;
}
