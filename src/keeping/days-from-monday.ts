import { type Day, firstDayOfWeek, formatDay, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Span } from '../plan/span';

/** Days from the Monday of a day's week to the day, 0 to 6. `what`: the day in words. */
export function daysFromMonday(day: Day, what: string, at: Span | undefined): Figure<'days'> {
  const past = day - firstDayOfWeek(weekOfDay(day));
  return countedFigure(
    `days from Monday to ${what}`,
    'days',
    past,
    `${formatDay(day)}, Monday is 0`,
    at && [at],
  );
}

/**
 * Days from a day to the first Monday that comes no sooner than so many days after it: rounded up to whole weeks, which is
 * a step of its own. `what`: the day in words.
 */
export function daysToMonday(
  name: string,
  from: { readonly value: Day; readonly at: Span },
  what: string,
  days: Figure<'days'>,
): Figure<'days'> {
  const weekday = daysFromMonday(from.value, what, from.at);
  const weeks = compute(
    'weeks until a week begins with that done, rounded up to a Monday',
    'weeks',
    'ceil((weekday + days) / 7)',
    { weekday, days },
    (v) => Math.ceil((v.weekday + v.days) / 7),
  );
  return compute(name, 'days', '7 * weeks - weekday', { weeks, weekday }, (v) => 7 * v.weeks - v.weekday);
}
