import { type Day, firstDayOfWeek, isoWeekday, type Week } from '../plan/dates';
import type { Packing } from '../plan/model';
import type { PackhouseDays, ReleaseProblem } from './types';

/** The days of a season, first and last included. */
export interface SeasonDays {
  readonly starts: Day;
  readonly ends: Day;
}

/** What the packhouse can do in each week of the season. */
export interface PackingWeeks {
  /** Bins it can run. */
  readonly packingBins: readonly number[];
  /** Bins it can run on the days left to rooms in their last week; absent where emptying takes whole weeks. */
  readonly lastWeekBins?: readonly number[];
  /** Working days as a share of those of a full week. */
  readonly fullWeeks: readonly number[];
}

/**
 * Bins the packhouse can run in each week of the season. Its working days are the first `daysAWeek` days from Monday;
 * each closed one, and each before the season starts or after it ends, takes its share of the week's bins away. Part
 * of a day counts as part of a day.
 *
 * The days to empty a room count from the Monday of the week it opens in. Where they end within a week, only the
 * working days up to there are left to it in that week.
 */
export function packingWeeks(
  packing: Packing,
  binsAWeek: number,
  { firstWeek, weeks, starts, ends }: SeasonDays & { readonly firstWeek: Week; readonly weeks: number },
): PackingWeeks {
  const bins = packingDays(packing, { starts, ends });
  const inEach = (firstDays: number) =>
    Array.from({ length: weeks }, (_, week) => bins(firstDayOfWeek(firstWeek + week), firstDays));
  const fullWeeks = inEach(7);
  const toBins = (share: number) => binsAWeek * share;
  const lastDays = daysInLastWeek(packing.daysToEmpty.value);
  return {
    packingBins: fullWeeks.map(toBins),
    ...(lastDays < 7 && { lastWeekBins: inEach(lastDays).map(toBins) }),
    fullWeeks,
  };
}

/** The days behind the packhouse's weeks. */
export function packhouseDays(packing: Packing, { starts, ends }: SeasonDays): PackhouseDays {
  const daysAWeek = workingDays(packing);
  const closed = [...closedDays(packing, starts, ends)].filter((day) => isoWeekday(day) - 1 < daysAWeek);
  return {
    starts,
    ends,
    daysAWeek,
    closed: closed.sort((a, b) => a - b),
    daysToEmpty: packing.daysToEmpty.value,
    packedWaitDays: packing.packedWait.value,
  };
}

function workingDays(packing: Packing): number {
  return Math.max(1, Math.min(7, packing.daysAWeek || 1));
}

/**
 * The share of a full week's work that falls on so many days from a Monday on, on none before `from`: part of a day is
 * part of its work.
 */
export function packingDays(
  packing: Packing,
  { starts, ends }: SeasonDays,
): (monday: Day, firstDays: number, from?: Day) => number {
  const daysAWeek = workingDays(packing);
  const closed = closedDays(packing, starts, ends);
  return (monday, firstDays, from = monday) => {
    let days = 0;
    for (let day = Math.max(starts, monday, from); day <= Math.min(ends, monday + 6); day++) {
      const since = isoWeekday(day) - 1;
      if (!closed.has(day)) days += Math.max(0, Math.min(1, daysAWeek - since, firstDays - since));
    }
    return days / daysAWeek;
  };
}

/** Weeks over which a room is packed out, the opening week and one that it ends within included. */
export function weeksToEmpty(packing: Packing): number {
  return Math.max(1, Math.ceil(packing.daysToEmpty.value / 7) || 1);
}

function daysInLastWeek(daysToEmpty: number): number {
  if (!(daysToEmpty > 0)) return 7;
  return daysToEmpty - 7 * (Math.ceil(daysToEmpty / 7) - 1);
}

function closedDays(packing: Packing, starts: Day, ends: Day): Set<Day> {
  const closed = new Set<Day>();
  for (const { value } of packing.closed) {
    for (let day = Math.max(starts, value.first); day <= Math.min(ends, value.last); day++) closed.add(day);
  }
  return closed;
}

/** Bins the packhouse can run, were it all for one room, in the weeks of its emptying. */
export function packableBins(
  { packingBins, lastWeekBins, weeks }: Pick<ReleaseProblem, 'packingBins' | 'lastWeekBins' | 'weeks'>,
  opens: number,
  emptyingWeeks: number,
): number {
  let bins = 0;
  for (let week = Math.max(0, opens); week < Math.min(weeks, opens + emptyingWeeks); week++) {
    const most = packingBins[week] ?? 0;
    const isLast = week === opens + emptyingWeeks - 1;
    bins += isLast ? Math.min(most, lastWeekBins?.[week] ?? most) : most;
  }
  return bins;
}
