import { type Day, firstDayOfWeek, formatDay, formatDays, formatWeek, weekOfDay } from '../plan/dates';
import { fixed } from '../plan/display';
import { counted } from '../plan/wording';
import { packableBins } from './packing-weeks';
import type { Packhouse, PackhouseDays } from './types';

/** Weeks with closed days that are told one by one. */
const MOST_TOLD = 3;

/** What the packhouse can run of rooms opened in a week, with the closed days that take from it; in words. */
export function packhouseText(problem: Packhouse, opens: number, emptyingWeeks: number): string {
  const last = Math.min(problem.weeks, opens + emptyingWeeks) - 1;
  const bins = packableBins(problem, opens, emptyingWeeks);
  const week = (index: number) => formatWeek(problem.firstWeek + index);
  const span = last <= opens ? week(opens) : `${week(opens)} to ${week(last)}`;
  return `${bins < 0.5 ? 'none' : whole(bins)} in ${span}${lessText(problem, opens, last, opens + emptyingWeeks - 1 === last)}`;
}

/** Why weeks of a span take less than full ones, in brackets; empty where none does. `ends`: emptying ends with it. */
export function lessText(problem: Packhouse, first: number, last: number, ends: boolean): string {
  const { days } = problem;
  if (!days) return '';
  const parts: string[] = [];
  for (let week = first; week <= last; week++) parts.push(...closedText(problem, days, week));
  const told = parts.slice(0, MOST_TOLD);
  if (parts.length > told.length)
    told.push(`closed days in ${parts.length - told.length} more of these weeks`);
  if (ends) told.push(...endText(problem, days, last));
  return told.length === 0 ? '' : ` (${told.join('; ')})`;
}

/** "closed on 2027-05-06, so 2027-W18 takes 4 of 5 days, 960 bins". */
function closedText(problem: Packhouse, days: PackhouseDays, index: number): string[] {
  const week = problem.firstWeek + index;
  const closed = days.closed.filter((day) => weekOfDay(day) === week);
  if (closed.length === 0) return [];
  const bins = problem.packingBins[index] ?? 0;
  const name = formatWeek(week);
  const left = days.daysAWeek - closed.length;
  const takes =
    bins <= 0 || left <= 0
      ? `${name} takes none`
      : `${name} takes ${some(left)} of ${some(days.daysAWeek)} days, ${counted(bins, 'bin')}`;
  return [`closed on ${spans(closed).join(', ')}, so ${takes}`];
}

function endText({ firstWeek, lastWeekBins, packingBins }: Packhouse, days: PackhouseDays, last: number) {
  const bins = lastWeekBins?.[last];
  if (bins === undefined || bins >= (packingBins[last] ?? 0)) return [];
  const into = days.daysToEmpty - 7 * (Math.ceil(days.daysToEmpty / 7) - 1);
  const until = formatDay(firstDayOfWeek(firstWeek + last) + Math.ceil(into) - 1);
  return [
    `the ${some(days.daysToEmpty)} days to empty a room end with ${until}, so ${formatWeek(firstWeek + last)} takes ${whole(bins)} of their bins`,
  ];
}

/** Days in a row are told as a span. */
function spans(days: readonly Day[]): string[] {
  const found: { first: Day; last: Day }[] = [];
  for (const day of days) {
    const before = found.at(-1);
    if (before && day === before.last + 1) before.last = day;
    else found.push({ first: day, last: day });
  }
  return found.map(({ first, last }) => formatDays(first, last));
}

function some(days: number): string {
  return fixed(days, Number.isInteger(days) ? 0 : 1);
}

function whole(bins: number): string {
  return fixed(bins, 0);
}
