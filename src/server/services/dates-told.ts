import {
  firstDayOfWeek,
  formatDay,
  formatWeek,
  isoWeekday,
  parseDay,
  parseWeek,
  weekOfDay,
} from '../../plan/dates';

const WEEKDAYS = ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday', 'Sunday'];

/** What a date or week means beside what it says: the weekday and ISO week of a day, the days of a week. */
export function tellDate(text: string): string | undefined {
  const [first = '', last] = text.split('..');
  const told = [first, last].filter((part) => part !== undefined).map(tellOne);
  if (told.some((part) => part === undefined)) return undefined;
  return told.join(' to ');
}

function tellOne(text: string): string | undefined {
  const day = parseDay(text);
  if (day !== undefined) return `${WEEKDAYS[isoWeekday(day) - 1]}, ISO week ${formatWeek(weekOfDay(day))}`;
  const week = parseWeek(text);
  if (week === undefined) return undefined;
  const monday = firstDayOfWeek(week);
  return `Monday ${formatDay(monday)} to Sunday ${formatDay(monday + 6)}`;
}
