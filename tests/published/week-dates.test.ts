import { describe, it } from 'vitest';
import { firstDayOfWeek, formatWeek, isoWeekday, parseDay, weekOfDay } from '../../src/plan/dates';
import { check } from './published';

// ISO 8601-1:2019, weeks from Monday, week 1 the one with the year's first Thursday. The examples are recalled from
// the standard and from its many descriptions; each also follows from the definition by counting days.
const SOURCE = 'ISO 8601-1:2019, Date and time: calendar weeks and ordinal days of the week';

const EXAMPLES = [
  ['2024-12-30', 2025, 1, 1],
  ['2025-12-29', 2026, 1, 1],
  ['2026-01-01', 2026, 1, 4],
  ['2026-12-31', 2026, 53, 4],
  ['2027-01-01', 2026, 53, 5],
  ['2021-01-03', 2020, 53, 7],
  ['2021-01-04', 2021, 1, 1],
] as const;

describe('ISO weeks', () => {
  for (const [date, year, week, weekday] of EXAMPLES)
    it(`${date} is day ${weekday} of week ${week} of ${year}`, () => {
      const day = parseDay(date) ?? Number.NaN;
      const [shownYear, shownWeek] = formatWeek(weekOfDay(day)).split('-W').map(Number);
      const about = { source: SOURCE, known: 'from memory', tolerance: 0 } as const;
      const id = `iso-week-${date}`;
      check(
        { ...about, id: `${id}-year`, what: `ISO week year of ${date}`, expected: year, unit: 'year' },
        shownYear ?? 0,
      );
      check({ ...about, id, what: `ISO week of ${date}`, expected: week, unit: 'week' }, shownWeek ?? 0);
      check(
        { ...about, id: `${id}-weekday`, what: `ISO weekday of ${date}`, expected: weekday, unit: 'weekday' },
        isoWeekday(day),
      );
      check(
        {
          ...about,
          id: `${id}-monday`,
          what: `days from Monday to ${date}`,
          expected: weekday - 1,
          unit: 'days',
        },
        day - firstDayOfWeek(weekOfDay(day)),
      );
    });
});
