import { describe, expect, test } from 'vitest';
import { claimFrom, newYorkPeriod, washingtonPeriod } from '../../src/keeping/law';
import { formatDay } from '../../src/plan/dates';
import { day } from './rooms';

function dates(firstBin: string, sealed: string, fivePercent: string) {
  return { firstBin: day(firstBin), sealed: day(sealed), fivePercent: day(fivePercent) };
}

/** First day the claim may be made, or why it may not. */
function claim(period: ReturnType<typeof washingtonPeriod>, { fivePercent }: { fivePercent: number }) {
  const from = claimFrom(period, fivePercent);
  return from === undefined ? period : formatDay(from);
}

describe('Washington (WAC 16-450-041)', () => {
  const room = dates('2025-09-25', '2025-10-01', '2025-10-21');

  test.each([
    ['Royal Gala', '2025-12-05'],
    ['Jonagold', '2025-12-05'],
    ['Bartlett', '2025-12-05'],
    ['Bosc', '2025-12-05'],
    ['Anjou', '2025-12-20'],
    ['Red Delicious', '2025-12-20'],
    ['Honeycrisp', '2025-12-20'],
  ])('%s at 5 %% on the twentieth day may be called CA from %s', (variety, from) => {
    expect(claim(washingtonPeriod(variety, room), room)).toBe(from);
  });

  test('one day later no claim can be made', () => {
    const late = dates('2025-09-25', '2025-10-01', '2025-10-22');
    expect(washingtonPeriod('Gala', late)).toMatchObject({
      kind: 'no claim',
      why: 'oxygen must be at 5 % or below by 2025-10-21, 20 days after sealing',
    });
  });
});

describe('New York (1 NYCRR 187.6, AGM § 156-dd)', () => {
  const rule = (variety: string, room: ReturnType<typeof dates>) => {
    const period = newYorkPeriod(variety, room);
    return period.kind === 'days' ? period.days : period.why;
  };

  test('filled, sealed and at 5 % within 7 days of the first bin: 60 days for the four varieties', () => {
    const quick = dates('2025-09-15', '2025-09-19', '2025-09-22');
    for (const variety of ['McIntosh', 'Cortland', 'Empire', 'Jonamac'])
      expect(rule(variety, quick)).toBe(60);
    expect(rule('Gala', quick)).toBe(90);
  });

  test('slower: 90 days, and McIntosh only when filled and sealed within 14 days', () => {
    const slower = dates('2025-09-15', '2025-09-29', '2025-10-10');
    for (const variety of ['McIntosh', 'Cortland', 'Empire', 'Fuji']) expect(rule(variety, slower)).toBe(90);
    const tooSlow = dates('2025-09-15', '2025-09-30', '2025-10-10');
    expect(rule('McIntosh', tooSlow)).toMatch(/more than 14 days/);
    expect(rule('Empire', tooSlow)).toBe(90);
  });

  test('no claim where oxygen took more than 20 days from sealing', () => {
    expect(rule('Empire', dates('2025-09-15', '2025-09-19', '2025-10-10'))).toMatch(/by 2025-10-09/);
  });
});
