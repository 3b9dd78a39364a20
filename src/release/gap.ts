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

/**
 * The gap to be told: none of a schedule that is worth nothing or less where more may be had, for a share of nothing tells
 * nothing; none either where no bound was proven.
 */
export function gapToTell({ bound, gap }: { readonly bound: number; readonly gap: number }, value: number) {
  if (!Number.isFinite(bound) || !Number.isFinite(gap)) return undefined;
  if (isProven(gap)) return 0;
  return value < LEAST_WORTH && bound > value ? undefined : Math.round(gap * TOLD_PARTS) / TOLD_PARTS;
}

/** A gap is told to a ten-thousandth of a per cent. */
const TOLD_PARTS = 1e6;

/** Money below which a schedule is worth nothing. */
const LEAST_WORTH = 0.01;
