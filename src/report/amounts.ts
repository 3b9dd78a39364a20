/** A schedule's amounts are not whole; less than this is nothing. */
export const LEAST_AMOUNT = 0.5;

/** Amounts to a thousandth: a schedule comes out of floating-point arithmetic. */
export function tidy(value: number): number {
  const rounded = Math.round(value * 1000) / 1000;
  return rounded === 0 ? 0 : rounded;
}

export function finite(value: number): number | undefined {
  return Number.isFinite(value) ? tidy(value) : undefined;
}
