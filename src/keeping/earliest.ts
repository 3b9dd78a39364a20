import { remark } from '../fruit/sources';
import type { Regime } from '../fruit/types';
import { type Day, firstDayOfWeek, type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure, referenceFigure } from '../plan/figure';
import type { Fill, Lot, Plan } from '../plan/model';
import type { FilledRoom, LotInRoom } from '../room/types';
import { airRoomSettles, daysToGas } from './assumptions';
import { daysToMonday } from './days-from-monday';
import { newYorkPeriod, type RoomDates, washingtonPeriod } from './law';
import { isSealed } from './storage-life';
import type { WindowEdge } from './types';

const SEALING = 'the day of sealing';

/** A Monday to open on, with the figure that explains it: days after sealing, or after the last bin. */
interface FirstDay {
  readonly day: Day;
  readonly edge: Omit<WindowEdge, 'week'>;
}

/**
 * The first week in which the room may be opened: the first that begins when it is cold and at its gas, when the law
 * lets its fruit be called "CA" where the room follows one, and when the season has begun. Undefined where the fill
 * has no dates.
 */
export function earliestEdge(plan: Plan, filled: FilledRoom, regime: Regime): WindowEdge | undefined {
  const { fill } = filled;
  const ready = isSealed(fill, regime) ? atGas(fill) : settledInAir(fill);
  if (!ready) return undefined;
  const law = isSealed(fill, regime) ? lawfulClaim(filled) : undefined;
  const season = seasonBegins(plan, fill);
  const latest = [law, season]
    .filter((each) => each !== undefined)
    .reduce((a, b) => (firstWeek(b.day) > firstWeek(a.day) ? b : a), ready);
  return { week: firstWeek(latest.day), ...latest.edge };
}

/** The week that begins on the day or next after it. */
function firstWeek(day: Day): Week {
  const week = weekOfDay(day);
  return firstDayOfWeek(week) === day ? week : week + 1;
}

function atGas({ sealed }: Fill): FirstDay | undefined {
  if (!sealed) return undefined;
  const because = daysToMonday(
    'days after sealing to the Monday on which the room is cold and at its gas',
    sealed,
    SEALING,
    daysToGas,
  );
  return { day: sealed.value + because.value, edge: { limit: 'cooling and gas', because } };
}

function settledInAir({ lastBin, firstBin }: Fill): FirstDay | undefined {
  const last = lastBin ?? firstBin;
  if (!last) return undefined;
  const because = daysToMonday(
    'days after the last bin to the Monday on which the air room is cold',
    last,
    'the day of the last bin',
    airRoomSettles,
  );
  return { day: last.value + because.value, edge: { limit: 'cooling', because } };
}

/** The claim needs the longest period of the room's varieties. A room that can make no claim is not held back. */
function lawfulClaim({ room, fill, lots }: FilledRoom): FirstDay | undefined {
  const { sealed } = fill;
  if (room.law === 'none' || !sealed) return undefined;
  const fivePercent = sealed.value + daysToGas.value;
  const dates = { firstBin: fill.firstBin?.value ?? sealed.value, sealed: sealed.value, fivePercent };
  let longest: { readonly lot: Lot; readonly days: Figure<'days'> } | undefined;
  for (const { lot, days } of lots.flatMap((each) => periodOf(room.law, each, dates))) {
    if (!longest || days.value > longest.days.value) longest = { lot, days };
  }
  if (!longest) return undefined;
  const lawful = compute(
    'days after sealing until fruit may be called "CA"',
    'days',
    'toFivePercent + kept',
    { toFivePercent: daysToGas, kept: longest.days },
    (v) => v.toFivePercent + v.kept,
  );
  const because = daysToMonday(
    'days after sealing to the Monday from which fruit may be called "CA"',
    sealed,
    SEALING,
    lawful,
  );
  return { day: sealed.value + because.value, edge: { limit: 'law', lot: longest.lot, because } };
}

function periodOf(law: 'washington' | 'new-york' | 'none', { lot, variety }: LotInRoom, dates: RoomDates) {
  const period =
    law === 'new-york' ? newYorkPeriod(variety.name, dates) : washingtonPeriod(variety.name, dates);
  if (period.kind === 'no claim') return [];
  const days = referenceFigure(
    `days in controlled atmosphere before ${variety.name} may be called "CA"`,
    'days',
    period.days,
    remark(period.source, period.rule),
  );
  return [{ lot, days }];
}

function seasonBegins(plan: Plan, fill: Fill): FirstDay | undefined {
  const starts = plan.season?.starts;
  const from = fill.sealed ?? fill.lastBin ?? fill.firstBin;
  if (!starts || !from) return undefined;
  // The season's first week counts whole, whatever day harvest begins on.
  const day = firstDayOfWeek(weekOfDay(starts.value));
  const because = countedFigure(
    'days after filling until the season begins',
    'days',
    day - from.value,
    'days from the filling of the room to the first week of the season',
    [from.at, starts.at],
  );
  return { day, edge: { limit: 'season', because } };
}
