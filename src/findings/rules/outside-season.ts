import { type Day, formatDay, formatDays, parseDay, weekOfDay } from '../../plan/dates';
import type { Fill, Lot, Plan } from '../../plan/model';
import type { Fix, Problem } from '../../plan/problem';
import type { Given, Span } from '../../plan/span';
import { MOST_WEEKS } from '../../release/problem';
import type { ComputedSeason } from '../types';

/** The days of a season that begins before it ends. */
export interface SeasonDays {
  readonly starts: Given<Day>;
  readonly ends: Given<Day>;
}

/** First and last day of what is written: the same where it is one day. */
interface WrittenDays {
  readonly first: Day;
  readonly last: Day;
}

export function* fillOutsideSeason({ plan }: ComputedSeason, fill: Fill): Iterable<Problem> {
  const season = daysOf(plan);
  if (!season) return;
  const { starts, ends } = season;
  for (const [key, given] of [
    ['first bin', fill.firstBin],
    ['sealing', fill.sealed],
  ] as const) {
    if (!given || isWithin(given.value, season)) continue;
    const { value, at } = given;
    // What is on record is not for the tool to correct.
    const written = plan.progress.has(fill.id) ? undefined : { first: value, last: value };
    yield {
      code: 'outside-season',
      message: `${fill.id}: ${key} on ${formatDay(value)} lies outside the season (${formatDay(starts.value)} to ${formatDay(ends.value)}). ${widerSeason(value, starts.value)}`,
      at,
      related: [{ at: starts.at, message: 'The season starts here' }],
      about: `${fill.id}/${key}`,
      fixes: fixesOf(plan, value, at, written, season),
    };
  }
}

export function lotOutsideSeason({ plan }: ComputedSeason, { id, picked }: Lot): Problem[] | undefined {
  const season = picked && daysOf(plan);
  if (!season || isWithin(picked.value.first, season)) return undefined;
  const { starts, ends } = season;
  const { first } = picked.value;
  return [
    {
      code: 'outside-season',
      message: `Lot ${id} is picked on ${formatDay(first)}, outside the season (${formatDay(starts.value)} to ${formatDay(ends.value)}). ${widerSeason(first, starts.value)}`,
      at: picked.at,
      related: [{ at: starts.at, message: 'The season starts here' }],
      about: `${id}/picked`,
      fixes: fixesOf(plan, first, picked.at, picked.value, season),
    },
  ];
}

export function daysOf({ season }: ComputedSeason['plan']): SeasonDays | undefined {
  const { starts, ends } = season ?? {};
  return starts && ends && ends.value > starts.value ? { starts, ends } : undefined;
}

function isWithin(day: Day, season: SeasonDays): boolean {
  return daysAway(day, season) === 0;
}

function daysAway(day: Day, { starts, ends }: SeasonDays): number {
  return Math.max(starts.value - day, day - ends.value, 0);
}

function widerSeason(day: Day, starts: Day): string {
  return day < starts
    ? `Correct the date, or let the season start by ${formatDay(day)}.`
    : `Correct the date, or let the season go on to ${formatDay(day)}.`;
}

/**
 * The year that was meant, where the same day lies in the season in another; else the season as far as the day, unless the
 * day would be nearer in another year. `written`: what stands at the place and may be corrected.
 */
function fixesOf(
  plan: Plan,
  day: Day,
  at: Span,
  written: WrittenDays | undefined,
  season: SeasonDays,
): Fix[] {
  const years = yearsAway(day, season);
  if (years === 0) return reaching(day, season);
  const first = inYear(day, years);
  const last = written && inYear(written.last, years);
  if (first === undefined || last === undefined || !isWithin(first, season)) return [];
  // Where no room is filled in the season, it is more likely the season's own year that is wrong.
  if (!anyFilledIn(plan, season)) return [];
  const newText = formatDays(first, last);
  return [{ title: `Change to ${newText}`, edits: [{ at, newText }] }];
}

/** Whether a room is filled in the season: else its own year is likelier to be wrong than the day's. */
export function anyFilledIn(plan: Plan, season: SeasonDays): boolean {
  return [...plan.fills.values()].some((fill) => isFilledIn(fill, season));
}

function isFilledIn({ firstBin, lastBin, sealed }: Fill, season: SeasonDays): boolean {
  return [firstBin, lastBin, sealed].some((given) => given && isWithin(given.value, season));
}

/** Years that a season may reach into after that of its beginning. */
const MOST_YEARS = Math.ceil(MOST_WEEKS / 52);

/** By how many years the day is moved to lie nearest to the season; 0 where it lies nearest as it is. */
export function yearsAway(day: Day, season: SeasonDays): number {
  const [first, last] = [yearOf(season.starts.value), yearOf(season.ends.value)];
  let best = { years: 0, away: daysAway(day, season) };
  // A season that is longer than can be planned has a wrong year itself.
  for (let year = first; year <= Math.min(last, first + MOST_YEARS); year++) {
    const years = year - yearOf(day);
    const moved = inYear(day, years);
    const away = moved === undefined ? Number.POSITIVE_INFINITY : daysAway(moved, season);
    if (away < best.away) best = { years, away };
  }
  return best.years;
}

function yearOf(day: Day): number {
  return Number(formatDay(day).slice(0, 4));
}

/** The same day so many years later; undefined for 29 February in a year without one. */
export function inYear(day: Day, years: number): Day | undefined {
  const text = formatDay(day);
  return parseDay(`${String(yearOf(day) + years).padStart(4, '0')}${text.slice(4)}`);
}

/** More weeks than this hold the harvest of a second year. */
const WEEKS_OF_ONE_YEAR = 53;

/** The season as far as the day, where it then holds no second harvest. */
export function reaching(day: Day, { starts, ends }: SeasonDays): Fix[] {
  const [first, last] = [Math.min(day, starts.value), Math.max(day, ends.value)];
  if (weekOfDay(last) - weekOfDay(first) + 1 > WEEKS_OF_ONE_YEAR) return [];
  const newText = formatDay(day);
  return day < starts.value
    ? [{ title: `Let the season start on ${newText}`, edits: [{ at: starts.at, newText }] }]
    : [{ title: `Let the season go on to ${newText}`, edits: [{ at: ends.at, newText }] }];
}
