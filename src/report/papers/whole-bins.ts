/**
 * Amounts by week as whole numbers that add up to the whole of their sum: each is what the running total, rounded, grows
 * by. No week is off by one or more.
 */
export function wholeByWeek(amounts: readonly number[]): number[] {
  let [total, told] = [0, 0];
  return amounts.map((amount) => {
    total += amount;
    const whole = Math.max(0, Math.round(total) - told);
    told += whole;
    return whole;
  });
}

/** The weeks in which there is something, with how much of it. */
export function weeksWithBins(
  amounts: readonly number[],
  firstWeek: number,
): { readonly week: number; readonly bins: number }[] {
  return wholeByWeek(amounts).flatMap((bins, index) => (bins > 0 ? [{ week: firstWeek + index, bins }] : []));
}
