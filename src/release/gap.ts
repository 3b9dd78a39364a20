/** How far a value may lie below the best: (bound - value) / |bound|, as a share. Never negative. */
export function gapOf(value: number, bound: number): number {
  const apart = Math.max(0, bound - value);
  if (apart === 0) return 0;
  return apart / Math.max(Math.abs(bound), 1e-9);
}
