/** A gap below this is rounding: the schedule is proven to be the best. */
const PROVEN_GAP = 1e-6;

export function isProven(gap: number): boolean {
  return gap <= PROVEN_GAP;
}

/** How far a value may lie below the best: (bound - value) / |bound|, as a share. Never negative. */
export function gapOf(value: number, bound: number): number {
  const apart = Math.max(0, bound - value);
  if (apart === 0) return 0;
  return apart / Math.max(Math.abs(bound), 1e-9);
}
