import { firstDayOfWeek, formatDay, formatWeek, formatWeeks, type Week, weekOfDay } from '../../plan/dates';
import type { Demand, Plan } from '../../plan/model';
import type { Fix, Problem } from '../../plan/problem';
import type { Given } from '../../plan/span';
import { counted, listed } from '../../plan/wording';
import type { ComputedSeason } from '../types';
import { anyFilledIn, daysOf, inYear, reaching, type SeasonDays, yearsAway } from './outside-season';

/** First and last week, both of them too. */
interface WeekSpan {
  readonly first: Week;
  readonly last: Week;
}

/** Orders of weeks that the season does not have: nothing of them is wanted by the schedule, and nobody would miss them. */
export function* ordersOutsideSeason({ plan }: ComputedSeason): Iterable<Problem> {
  const season = daysOf(plan);
  if (!season) return;
  const within: WeekSpan = { first: weekOfDay(season.starts.value), last: weekOfDay(season.ends.value) };
  for (const demand of plan.demand.values()) {
    const { weeks } = demand;
    if (!weeks) continue;
    const spans = outsideOf(weeks.value, within);
    const cartons = spans.reduce((sum, span) => sum + cartonsIn(demand, span), 0);
    if (cartons < 1) continue;
    const all = cartonsIn(demand, weeks.value);
    const { starts, ends } = season;
    const sum =
      cartons < all
        ? `${counted(cartons, 'carton')} of ${counted(all, 'carton')}`
        : counted(cartons, 'carton');
    yield {
      code: 'outside-season',
      message: `${demand.id} wants ${sum} in ${listed(spans.map(({ first, last }) => formatWeeks(first, last)))}, outside the season (${formatDay(starts.value)} to ${formatDay(ends.value)}): they are not counted. ${cureOf(weeks.value, within)}`,
      at: weeks.at,
      related: [{ at: starts.at, message: 'The season starts here' }],
      about: `${demand.id}/weeks`,
      fixes: fixesOf(plan, weeks, within, season),
    };
  }
}

/** The weeks of a span before and after another. */
function outsideOf({ first, last }: WeekSpan, within: WeekSpan): WeekSpan[] {
  const before = { first, last: Math.min(last, within.first - 1) };
  const after = { first: Math.max(first, within.last + 1), last };
  return [before, after].filter((span) => span.first <= span.last);
}

/** What is ordered in the weeks: the usual cartons, but in weeks that have their own. */
function cartonsIn({ cartons, byWeek }: Demand, { first, last }: WeekSpan): number {
  const own = [...byWeek].filter(([week]) => week >= first && week <= last);
  const usual = (last - first + 1 - own.length) * Math.max(0, cartons?.value ?? 0);
  return own.reduce((sum, [, { value }]) => sum + Math.max(0, value), usual);
}

function cureOf(weeks: WeekSpan, within: WeekSpan): string {
  const starts = formatDay(firstDayOfWeek(weeks.first));
  const ends = formatDay(lastDayOf(weeks));
  if (weeks.first >= within.first) return `Correct the weeks, or let the season go on to ${ends}.`;
  if (weeks.last <= within.last) return `Correct the weeks, or let the season start by ${starts}.`;
  return `Correct the weeks, or let the season start by ${starts} and go on to ${ends}.`;
}

function lastDayOf({ last }: WeekSpan): number {
  return firstDayOfWeek(last) + 6;
}

/** The year that was meant, of an order that lies in the season in another; else the season as far as its weeks. */
function fixesOf(plan: Plan, { value, at }: Given<WeekSpan>, within: WeekSpan, season: SeasonDays): Fix[] {
  // Thursday is the day that a week's year goes by.
  const years = yearsAway(firstDayOfWeek(value.first) + 3, season);
  if (years !== 0) {
    const moved = { first: weekInYear(value.first, years), last: weekInYear(value.last, years) };
    const { first, last } = moved;
    if (first === undefined || last === undefined || first < within.first || last > within.last) return [];
    if (!anyFilledIn(plan, season)) return [];
    const newText = formatWeeks(first, last);
    return [{ title: `Change to ${newText}`, edits: [{ at, newText }] }];
  }
  // Both ends of the season at once are no slip of the keyboard.
  if (value.first < within.first && value.last > within.last) return [];
  return reaching(value.first < within.first ? firstDayOfWeek(value.first) : lastDayOf(value), season);
}

/** The week of the same number so many years later; undefined for week 53 in a year without one. */
function weekInYear(week: Week, years: number): Week | undefined {
  const text = formatWeek(week);
  const thursday = inYear(firstDayOfWeek(week) + 3, years);
  if (thursday === undefined) return undefined;
  const near = weekOfDay(thursday);
  return [near - 1, near, near + 1].find((one) => formatWeek(one).slice(4) === text.slice(4));
}
