import { expect, test } from 'vitest';
import { formatWeek, isoWeekday, parseDay, weekOfDay } from '../../src/plan/dates';
import { present } from '../fruit/plans';
import { check } from './published';

const STANDARD = 'ISO 8601 week dates: weeks begin on Monday, week 1 holds 4 January';

// The turns of years are where weeks go wrong.
const DAYS = [
  ['2020-12-31', '2020-W53', 4],
  ['2021-01-03', '2020-W53', 7],
  ['2021-01-04', '2021-W01', 1],
  ['2024-12-30', '2025-W01', 1],
  ['2025-12-29', '2026-W01', 1],
  ['2026-01-01', '2026-W01', 4],
  ['2026-12-31', '2026-W53', 4],
  ['2027-01-01', '2026-W53', 5],
] as const;

test.each(DAYS)('%s lies in %s, day %d', (date, week, weekday) => {
  const day = present(parseDay(date));
  const [year, number] = formatWeek(weekOfDay(day)).split('-W');
  const common = { source: STANDARD, known: 'from memory', tolerance: 0 } as const;
  const wanted = Number(week.slice(-2));
  check(
    { ...common, id: `iso-week-${date}`, what: `ISO week of ${date}`, unit: 'week', expected: wanted },
    Number(number),
  );
  check(
    {
      ...common,
      id: `iso-weekday-${date}`,
      what: `Day of the week of ${date}, Monday 1`,
      unit: 'day',
      expected: weekday,
    },
    isoWeekday(day),
  );
  expect(year).toBe(week.slice(0, 4));
});
