/** The middle of some numbers, the mean of the two middle ones; NaN of none. */
export function median(numbers: readonly number[]): number {
  const sorted = [...numbers].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const [upper = Number.NaN, lower = upper] = [sorted[middle], sorted[middle - 1]];
  return sorted.length % 2 === 1 ? upper : (lower + upper) / 2;
}
