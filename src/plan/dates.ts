import { Temporal } from 'temporal-polyfill';

/** A calendar day as a count of days since 1970-01-01. */
export type Day = number;

/** An ISO 8601 week as a count of weeks; week 0 is 1970-W01, which begins on Monday 1969-12-29. */
export type Week = number;

const EPOCH = Temporal.PlainDate.from('1970-01-01');
const DAY_PATTERN = /^\d{4}-\d{2}-\d{2}$/;
const WEEK_PATTERN = /^(\d{4})-W(\d{2})$/;

/** Reads an ISO 8601 calendar date (`2026-09-14`); undefined where the text is not one. */
export function parseDay(text: string): Day | undefined {
  if (!DAY_PATTERN.test(text)) return undefined;
  try {
    return dayOf(Temporal.PlainDate.from(text, { overflow: 'reject' }));
  } catch {
    return undefined;
  }
}

/** Reads an ISO 8601 week (`2026-W38`); undefined where the text is not one, or the year has no such week. */
export function parseWeek(text: string): Week | undefined {
  const match = WEEK_PATTERN.exec(text);
  if (!match) return undefined;
  const [year, number] = [Number(match[1]), Number(match[2])];
  // 4 January always lies in week 1.
  const fourth = parseDay(`${match[1]}-01-04`);
  if (fourth === undefined || number < 1) return undefined;
  const week = weekOfDay(fourth) + number - 1;
  return isoWeekYear(week) === year ? week : undefined;
}

export function formatDay(day: Day): string {
  return EPOCH.add({ days: day }).toString();
}

export function formatWeek(week: Week): string {
  const thursday = EPOCH.add({ days: week * 7 });
  return `${String(thursday.yearOfWeek).padStart(4, '0')}-W${String(thursday.weekOfYear).padStart(2, '0')}`;
}

/** The ISO week that holds the day. */
export function weekOfDay(day: Day): Week {
  // 1970-01-01 was a Thursday: three days into week 0.
  return Math.floor((day + 3) / 7);
}

/** The Monday that begins the week. */
export function firstDayOfWeek(week: Week): Day {
  return week * 7 - 3;
}

/** Day of the week by ISO 8601: Monday is 1, Sunday is 7. */
export function isoWeekday(day: Day): number {
  return ((((day + 3) % 7) + 7) % 7) + 1;
}

function isoWeekYear(week: Week): number {
  return EPOCH.add({ days: week * 7 }).yearOfWeek ?? Number.NaN;
}

function dayOf(date: Temporal.PlainDate): Day {
  return EPOCH.until(date).days;
}
