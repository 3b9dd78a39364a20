import { type Day, firstDayOfWeek, type Week } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { OutOfUse } from '../plan/model';

/** Whether a machine is out of use on a day. */
export function isOut(outOfUse: OutOfUse | undefined, day: Day): boolean {
  return outOfUse?.some(({ value: { first, last } }) => day >= first && day <= last) ?? false;
}

/** Days of a week on which a machine runs. */
export function daysInUse(outOfUse: OutOfUse | undefined, week: Week): number {
  const monday = firstDayOfWeek(week);
  let days = 0;
  for (let day = monday; day < monday + 7; day++) if (!isOut(outOfUse, day)) days++;
  return days;
}

/** What a machine gives in a week as the mean of its days; the same figure where it runs on all of them. */
export function meanOfWeek(
  capacity: Figure<'kg/day'>,
  outOfUse: OutOfUse | undefined,
  week: Week,
): Figure<'kg/day'> {
  const days = daysInUse(outOfUse, week);
  if (days === 7) return capacity;
  return compute(
    'carbon dioxide it can remove, mean of the days of the week',
    'kg/day',
    'capacity * daysInUse / 7',
    {
      capacity,
      daysInUse: countedFigure('days on which it runs', 'days', days, 'the days it is out of use'),
    },
    (v) => (v.capacity * v.daysInUse) / 7,
  );
}

/**
 * Hours from a moment until a machine may begin a work that it is not to be interrupted in; 0 where it may begin at once.
 * Moments are hours since 1970-01-01.
 */
export function hoursUntilFree(outOfUse: OutOfUse | undefined, from: number, lasts: number): number {
  const spans = (outOfUse ?? [])
    .map(({ value: { first, last } }) => ({ begins: 24 * first, ends: 24 * (last + 1) }))
    .sort((a, b) => a.begins - b.begins);
  let at = from;
  for (const { begins, ends } of spans) if (at + lasts > begins && at < ends) at = ends;
  return at - from;
}
