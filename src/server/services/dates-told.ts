import {
  type Day,
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
  const [first = '', last = first] = text.split('..');
  const [firstDay, lastDay] = [parseDay(first), parseDay(last)];
  if (firstDay !== undefined && lastDay !== undefined)
    return firstDay === lastDay ? tellDay(firstDay) : `${tellDay(firstDay)}, to ${tellDay(lastDay)}`;
  const [firstWeek, lastWeek] = [parseWeek(first), parseWeek(last)];
  if (firstWeek === undefined || lastWeek === undefined) return undefined;
  const [monday, sunday] = [firstDayOfWeek(firstWeek), firstDayOfWeek(lastWeek) + 6];
  return `Monday ${formatDay(monday)} to Sunday ${formatDay(sunday)}`;
}

function tellDay(day: Day): string {
  return `${WEEKDAYS[isoWeekday(day) - 1]} of ISO week ${formatWeek(weekOfDay(day))}`;
}
