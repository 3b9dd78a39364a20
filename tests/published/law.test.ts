import { describe, expect, test } from 'vitest';
import { claimFrom, fivePercentDue, newYorkPeriod, washingtonPeriod } from '../../src/keeping/law';
import { formatDay } from '../../src/plan/dates';
import { present } from '../fruit/plans';
import { day } from '../keeping/rooms';
import { check } from './published';

const WASHINGTON = 'Washington Administrative Code 16-450-041 (from 6 June 2015)';
const NEW_YORK = 'New York Codes, Rules and Regulations, title 1, section 187.6';

function dates(firstBin: string, sealed: string, fivePercent: string) {
  return { firstBin: day(firstBin), sealed: day(sealed), fivePercent: day(fivePercent) };
}

function daysOf(period: ReturnType<typeof washingtonPeriod>): number {
  return period.kind === 'days' ? period.days : Number.NaN;
}

describe('Washington', () => {
  test('a room sealed 1 October 2025 must be at 5 % oxygen by 21 October', () => {
    expect(formatDay(fivePercentDue(day('2025-10-01')))).toBe('2025-10-21');
    check(
      {
        id: 'washington-days-to-five-percent',
        what: 'Days from sealing to 5 % oxygen',
        source: WASHINGTON,
        known: 'published',
        expected: 20,
        unit: 'days',
        tolerance: 0,
      },
      fivePercentDue(day('2025-10-01')) - day('2025-10-01'),
    );
  });

  const room = dates('2025-09-25', '2025-10-01', '2025-10-08');
  const PERIODS = [
    ['Gala', 45],
    ['Jonagold', 45],
    ['Delicious', 60],
    ['Fuji', 60],
    ['Bartlett', 45],
    ['Bosc', 45],
    ['Anjou', 60],
  ] as const;
  test.each(PERIODS)('%s is kept %d continuous days', (name, expected) => {
    const period = washingtonPeriod(name, room);
    check(
      {
        id: `washington-period-${name.toLowerCase()}`,
        what: `Days in CA before ${name} may be called CA`,
        source: WASHINGTON,
        known: 'published',
        expected,
        unit: 'days',
        tolerance: 0,
      },
      daysOf(period),
    );
    expect(present(claimFrom(period, room.fivePercent)) - room.fivePercent).toBe(expected);
  });
});

describe('New York', () => {
  const PERIODS = [
    ['quick', 'Empire', '2025-09-15', '2025-09-19', '2025-09-22', 60],
    ['slow', 'Empire', '2025-09-15', '2025-09-25', '2025-10-15', 90],
    ['quick', 'McIntosh', '2025-09-15', '2025-09-19', '2025-09-22', 60],
    ['slow', 'McIntosh', '2025-09-15', '2025-09-29', '2025-10-19', 90],
    ['any', 'Fuji', '2025-10-15', '2025-10-18', '2025-10-20', 90],
  ] as const;
  test.each(PERIODS)(
    '%s filling of %s: first bin %s, sealed %s, 5 %% on %s, then %d days',
    (speed, name, firstBin, sealed, fivePercent, expected) => {
      check(
        {
          id: `new-york-period-${name.toLowerCase()}-${speed}`,
          what: `Days in CA before ${name} may be called CA, ${speed} filling`,
          source: name === 'Fuji' ? 'New York Agriculture and Markets Law § 156-dd' : NEW_YORK,
          known: 'published',
          expected,
          unit: 'days',
          tolerance: 0,
        },
        daysOf(newYorkPeriod(name, dates(firstBin, sealed, fivePercent))),
      );
    },
  );
});
