import type { Fill, Plan } from '../plan/model';

/** A lot's part of a fill. */
export interface PlacedPart {
  readonly fill: Fill;
  readonly part: Fill['lots'][number];
}

/** Where the bins of each lot go, in the order of the fills; by the lot's identifier. Undefined before any fill is planned. */
export function placedParts({ fills }: Pick<Plan, 'fills'>): Map<string, readonly PlacedPart[]> | undefined {
  if (fills.size === 0) return undefined;
  const placed = new Map<string, PlacedPart[]>();
  for (const fill of fills.values())
    for (const part of fill.lots) {
      const known = placed.get(part.lot.value);
      if (known) known.push({ fill, part });
      else placed.set(part.lot.value, [{ fill, part }]);
    }
  return placed;
}

/** The same, a lot's parts the very same list as the last time where none of them has changed. */
export function placedAgain(
  plan: Pick<Plan, 'fills'>,
  last: ReadonlyMap<string, readonly PlacedPart[]>,
): Map<string, readonly PlacedPart[]> | undefined {
  const placed = placedParts(plan);
  for (const [lot, parts] of placed ?? []) {
    const before = last.get(lot);
    if (before && sameParts(before, parts)) placed?.set(lot, before);
  }
  return placed;
}

function sameParts(a: readonly PlacedPart[], b: readonly PlacedPart[]): boolean {
  return (
    a.length === b.length && a.every(({ fill, part }, at) => fill === b[at]?.fill && part === b[at].part)
  );
}

export function binsIn(parts: readonly PlacedPart[]): number {
  return parts.reduce((sum, { part }) => sum + part.bins.value, 0);
}
