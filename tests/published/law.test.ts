import { describe, expect, test } from 'vitest';
import { fruitData } from '../../src/fruit/data';
import { claimFrom, fivePercentDue, newYorkPeriod, washingtonPeriod } from '../../src/keeping/law';
import { formatDay } from '../../src/plan/dates';
import { planWith, present } from '../fruit/plans';
import { day } from '../keeping/rooms';
import { check } from './published';

const data = fruitData(planWith());
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

/** The most days for which a claim can be made, counted up from none. */
function mostDays(claims: (days: number) => boolean): number {
  let days = 0;
  while (days < 60 && claims(days + 1)) days += 1;
  return days;
}

describe('the limits of the rules, each found from outside', () => {
  const sealed = day('2025-10-01');
  const at = (variety: string, fivePercent: number, firstBin = sealed - 30) => ({
    washington:
      washingtonPeriod(variety, { firstBin, sealed, fivePercent: sealed + fivePercent }).kind === 'days',
    newYork: newYorkPeriod(variety, { firstBin, sealed, fivePercent: sealed + fivePercent }),
  });
  const LIMITS = [
    [
      'washington-most-days-to-five-percent',
      WASHINGTON,
      20,
      () => mostDays((days) => at('Fuji', days).washington),
    ],
    [
      'new-york-most-days-to-five-percent',
      NEW_YORK,
      20,
      () => mostDays((days) => at('Empire', days).newYork.kind === 'days'),
    ],
    [
      'new-york-most-days-for-sixty',
      NEW_YORK,
      7,
      () =>
        mostDays(
          (days) => daysOf(newYorkPeriod('Cortland', dates('2025-09-15', '2025-09-15', plus(days)))) === 60,
        ),
    ],
    [
      'new-york-mcintosh-most-days-to-seal',
      NEW_YORK,
      14,
      () =>
        mostDays(
          (days) =>
            newYorkPeriod('McIntosh', dates('2025-09-15', plus(days), plus(days + 10))).kind === 'days',
        ),
    ],
  ] as const;
  test.each(LIMITS)('%s', (id, source, expected, actual) => {
    check(
      { id, what: id.replaceAll('-', ' '), source, known: 'published', expected, unit: 'days', tolerance: 0 },
      actual(),
    );
  });

  function plus(days: number): string {
    return formatDay(day('2025-09-15') + days);
  }

  const FOUR = ['McIntosh', 'Cortland', 'Empire', 'Jonamac'];
  test('New York: 60 days for the four varieties and no other; 90 for all', () => {
    const quick = dates('2025-09-15', '2025-09-19', '2025-09-22');
    const slow = dates('2025-09-15', '2025-09-25', '2025-10-15');
    for (const name of [...data.varietyNames, 'Jonamac']) {
      expect([name, daysOf(newYorkPeriod(name, quick))]).toEqual([name, FOUR.includes(name) ? 60 : 90]);
      expect([name, daysOf(newYorkPeriod(name, slow))]).toEqual([name, 90]);
    }
  });

  test('Washington: 45 days for Gala, Jonagold, Bartlett and Bosc, 60 for every other', () => {
    const room = dates('2025-09-25', '2025-10-01', '2025-10-08');
    for (const name of data.varietyNames) {
      const short = ['Gala', 'Jonagold', 'Bartlett', 'Bosc'].includes(name);
      expect([name, daysOf(washingtonPeriod(name, room))]).toEqual([name, short ? 45 : 60]);
    }
  });

  test('the first day of the claim is the day 5 % was reached, and the days kept', () => {
    const first = (period: ReturnType<typeof washingtonPeriod>) => {
      const from = claimFrom(period, day('2025-10-08'));
      return from === undefined ? '' : formatDay(from);
    };
    const room = dates('2025-10-01', '2025-10-05', '2025-10-08');
    expect(first(washingtonPeriod('Gala', room))).toBe('2025-11-22');
    expect(first(washingtonPeriod('Fuji', room))).toBe('2025-12-07');
    expect(first(newYorkPeriod('Empire', room))).toBe('2025-12-07');
    expect(first(newYorkPeriod('Gala', room))).toBe('2026-01-06');
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
