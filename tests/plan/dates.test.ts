import { Temporal } from 'temporal-polyfill';
import { describe, expect, it } from 'vitest';
import {
  firstDayOfWeek,
  formatDay,
  formatWeek,
  isoWeekday,
  parseDay,
  parseWeek,
  weekOfDay,
} from '../../src/plan/dates';

describe('days and weeks', () => {
  it('agree with the calendar of Temporal for every day of sixty years', () => {
    const start = Temporal.PlainDate.from('1990-01-01');
    const epoch = Temporal.PlainDate.from('1970-01-01');
    const first = epoch.until(start).days;
    for (let count = 0; count < 21_915; count++) {
      const date = start.add({ days: count });
      const day = first + count;
      expect(formatDay(day)).toBe(date.toString());
      expect(parseDay(date.toString())).toBe(day);
      expect(isoWeekday(day)).toBe(date.dayOfWeek);
      const week = `${date.yearOfWeek}-W${String(date.weekOfYear).padStart(2, '0')}`;
      expect(formatWeek(weekOfDay(day))).toBe(week);
      if (date.dayOfWeek === 1) {
        expect(parseWeek(week)).toBe(weekOfDay(day));
        expect(firstDayOfWeek(weekOfDay(day))).toBe(day);
      }
    }
  });

  it('refuse days and weeks that no calendar has', () => {
    for (const text of [
      '2026-02-29',
      '2026-04-31',
      '2026-13-01',
      '2026-00-10',
      '2026-9-14',
      '26-09-14',
      '0050-01-01',
      '',
    ])
      expect(parseDay(text), text).toBeUndefined();
    expect(parseDay('2024-02-29')).toBeDefined();
    for (const text of ['2027-W53', '2026-W54', '2026-W00', '2026-W9', '2026W09', '2026-w09'])
      expect(parseWeek(text), text).toBeUndefined();
    expect(parseWeek('2026-W53')).toBeDefined();
  });
});
