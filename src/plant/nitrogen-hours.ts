import { type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { formulaKeys, sumOf } from '../room/figures';
import type { FilledRoom } from '../room/types';

const hoursInWeek = countedFigure('hours in a week', 'h', 168, 'seven days of 24 hours');

export interface NitrogenWeek {
  readonly week: Week;
  readonly hours: Figure<'h'>;
  /** Hours as a share of the week. */
  readonly share: Figure<'%'>;
}

/** Hours of nitrogen in a week: of all rooms sealed in it, one after another on the one source. */
export function nitrogenWeek(week: Week, rooms: readonly FilledRoom[]): NitrogenWeek {
  const flushed = rooms.flatMap(({ fill, nitrogenHours }) =>
    nitrogenHours && fill.sealed && weekOfDay(fill.sealed.value) === week
      ? [{ id: fill.id, nitrogenHours }]
      : [],
  );
  const keys = formulaKeys(
    'fill',
    flushed.map(({ id }) => id),
  );
  const hours = sumOf(
    'hours of nitrogen in the week',
    'h',
    flushed.map(({ nitrogenHours }, index) => [keys[index] ?? '', nitrogenHours] as const),
  );
  const share = compute(
    'hours of nitrogen, of the week',
    '%',
    '100 * hours / hoursInWeek',
    { hours, hoursInWeek },
    (v) => (100 * v.hours) / v.hoursInWeek,
  );
  return { week, hours, share };
}
