import type { Week } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Demand } from '../plan/model';

type Cartons = Figure<'cartons/week'>;

/** More weeks of one order than that are a mistyped year. */
const MOST_WEEKS = 520;

/**
 * An order with its weeks from `first` on replaced, those before as they were, each week by itself: for an order that is
 * partly past. `of` gives the cartons of a week and the week that they are wanted in then; what would be wanted before
 * `first` is wanted in it. Undefined for an order without weeks.
 */
export function changedFrom(
  demand: Demand,
  first: Week,
  of: (week: Week, cartons: Cartons) => readonly [week: Week, cartons: Cartons],
): Demand | undefined {
  const { weeks, cartons, byWeek } = demand;
  if (!weeks || weeks.value.last - weeks.value.first > MOST_WEEKS) return undefined;
  const now = new Map<Week, Cartons>();
  for (let week = weeks.value.first; week <= weeks.value.last; week++) {
    const wanted = byWeek.get(week) ?? cartons;
    if (!wanted) continue;
    const [to, many] = week < first ? [week, wanted] : of(week, wanted);
    const at = week < first ? to : Math.max(first, to);
    now.set(at, together(now.get(at), many));
  }
  const last = Math.max(weeks.value.last, ...now.keys());
  for (let week = weeks.value.first; week <= last; week++) if (!now.has(week)) now.set(week, none());
  return { ...demand, weeks: { ...weeks, value: { first: weeks.value.first, last } }, byWeek: now };
}

function together(one: Cartons | undefined, other: Cartons): Cartons {
  if (!one) return other;
  return compute(one.name, 'cartons/week', 'one + other', { one, other }, (v) => v.one + v.other);
}

function none(): Cartons {
  return countedFigure('cartons wanted', 'cartons/week', 0, 'moved to other weeks');
}
