/** A calendar day as a count of days since 1970-01-01. */
export type Day = number;

/** An ISO 8601 week as a count of weeks; week 0 is 1970-W01, which begins on Monday 1969-12-29. */
export type Week = number;

const DAY_PATTERN = /^(\d{4})-(\d{2})-(\d{2})$/;
const WEEK_PATTERN = /^(\d{4})-W(\d{2})$/;
const MILLISECONDS = 86_400_000;

/** Reads an ISO 8601 calendar date (`2026-09-14`); undefined where the text is not one. */
export function parseDay(text: string): Day | undefined {
  const match = DAY_PATTERN.exec(text);
  if (!match) return undefined;
  const [year, month, dayOfMonth] = [Number(match[1]), Number(match[2]), Number(match[3])];
  const date = new Date(Date.UTC(year, month - 1, dayOfMonth));
  // A day that its month does not have is counted on into the next one, and the years up to 99 into the last century.
  const exists =
    date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === dayOfMonth;
  return exists ? date.getTime() / MILLISECONDS : undefined;
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
