/** A calendar day as a count of days since 1970-01-01. */
export type Day = number;

/** An ISO 8601 week as a count of weeks; week 0 is 1970-W01, which begins on Monday 1969-12-29. */
export type Week = number;

const WEEK_PATTERN = /^(\d{4})-W(\d{2})$/;
const MILLISECONDS = 86_400_000;
/** JavaScript's dates count the years before into the last century. */
const FIRST_YEAR = 100;

/** Reads an ISO 8601 calendar date (`2026-09-14`); undefined where the text is not one. */
export function parseDay(text: string): Day | undefined {
  if (text.length !== 10 || text[4] !== '-' || text[7] !== '-') return undefined;
  const year = digits(text, 0, 4);
  const month = digits(text, 5, 7);
  const dayOfMonth = digits(text, 8, 10);
  if (!(year >= FIRST_YEAR && month >= 1 && month <= 12 && dayOfMonth >= 1)) return undefined;
  if (dayOfMonth > daysIn(year, month)) return undefined;
  return Date.UTC(year, month - 1, dayOfMonth) / MILLISECONDS;
}

function daysIn(year: number, month: number): number {
  if (month !== 2) return month === 4 || month === 6 || month === 9 || month === 11 ? 30 : 31;
  return year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0) ? 29 : 28;
}

/** The number that a stretch of a text writes in digits alone, else not a number. */
function digits(text: string, from: number, to: number): number {
  let number = 0;
  for (let at = from; at < to; at++) {
    const digit = text.charCodeAt(at) - 48;
    if (digit < 0 || digit > 9) return Number.NaN;
    number = number * 10 + digit;
  }
  return number;
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
  return yearOfWeek(week) === year ? week : undefined;
}

export function formatDay(day: Day): string {
  return dateOf(day).toISOString().slice(0, 10);
}

export function formatWeek(week: Week): string {
  const year = yearOfWeek(week);
  const number = Math.floor((thursdayOf(week) - Date.UTC(year, 0, 1) / MILLISECONDS) / 7) + 1;
  return `${String(year).padStart(4, '0')}-W${String(number).padStart(2, '0')}`;
}

/** The ISO week that holds the day. */
export function weekOfDay(day: Day): Week {
  // 1970-01-01 was a Thursday: three days into week 0.
  return Math.floor((day + 3) / 7);
}

/** Weeks as the plan language writes them: one, or first and last. */
export function formatWeeks(first: Week, last: Week): string {
  return first === last ? formatWeek(first) : `${formatWeek(first)}..${formatWeek(last)}`;
}

/** Days, likewise. */
export function formatDays(first: Day, last: Day): string {
  return first === last ? formatDay(first) : `${formatDay(first)}..${formatDay(last)}`;
}

/** The Monday that begins the week. */
export function firstDayOfWeek(week: Week): Day {
  return week * 7 - 3;
}

/** Day of the week by ISO 8601: Monday is 1, Sunday is 7. */
export function isoWeekday(day: Day): number {
  return ((((day + 3) % 7) + 7) % 7) + 1;
}

/** An ISO week belongs to the year that its Thursday lies in. */
function yearOfWeek(week: Week): number {
  return dateOf(thursdayOf(week)).getUTCFullYear();
}

function thursdayOf(week: Week): Day {
  return week * 7;
}

/** The clock plays no part: days are counted in universal time only to use its calendar. */
function dateOf(day: Day): Date {
  return new Date(day * MILLISECONDS);
}
