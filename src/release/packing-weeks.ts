import { type Day, firstDayOfWeek, isoWeekday, type Week } from '../plan/dates';
import type { Packing } from '../plan/model';

/**
 * Bins the packhouse can run in each week of the season. Its working days are the first `daysAWeek` days from Monday;
 * each closed one takes its share of the week's bins away. Part of a day counts as part of a day.
 */
export function packingBinsAWeek(
  packing: Packing,
  binsAWeek: number,
  firstWeek: Week,
  weeks: number,
): number[] {
  const daysAWeek = Math.max(1, Math.min(7, packing.daysAWeek || 1));
  const [from, to] = [firstDayOfWeek(firstWeek), firstDayOfWeek(firstWeek + weeks) - 1];
  const closed = new Set<Day>();
  for (const { value } of packing.closed) {
    for (let day = Math.max(from, value.first); day <= Math.min(to, value.last); day++) closed.add(day);
  }
  return Array.from({ length: weeks }, (_, week) => {
    const monday = firstDayOfWeek(firstWeek + week);
    let open = 0;
    for (let day = monday; day < monday + 7; day++) {
      if (!closed.has(day)) open += Math.max(0, Math.min(1, daysAWeek - (isoWeekday(day) - 1)));
    }
    return (binsAWeek * open) / daysAWeek;
  });
}
