import { type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Fill, Plan } from '../plan/model';
import { usualDaysToEmpty } from './assumptions';
import { type LotTime, lastWholeWeek } from './lot-keeping';
import type { WindowEdge } from './types';

/**
 * The last week in which opening still lets the room be emptied with every lot within standard at `confidence` (a
 * share), and before the season ends. Lots of a room have lived through the same season and rise and fall together,
 * so the weakest lot's chance is taken as the chance of all. Undefined of a room without lots.
 */
export function latestEdge(
  plan: Plan,
  fill: Fill,
  lots: readonly LotTime[],
  confidence: number,
): WindowEdge | undefined {
  const daysToEmpty = plan.packing?.daysToEmpty ?? usualDaysToEmpty;
  const edges = lots.map((lot) => lotEdge(lot, daysToEmpty, confidence));
  const weakest = edges.reduce<WindowEdge | undefined>((a, b) => (!a || b.week < a.week ? b : a), undefined);
  const season = seasonEnds(plan, fill, daysToEmpty);
  return weakest && season && season.week < weakest.week ? season : weakest;
}

/** Weeks over which an opened room is packed out, the opening week included. */
export function weeksToEmpty(daysToEmpty: Figure<'days'>): number {
  return Math.max(1, Math.ceil(daysToEmpty.value / 7) || 1);
}

function lotEdge({ keeping, start, lastsAt }: LotTime, daysToEmpty: Figure<'days'>, confidence: number) {
  const { days, setBy } = lastsAt(confidence);
  const because = compute(
    `days from picking by which lot ${keeping.lot.id} calls for opening`,
    'days',
    'lasts - daysToEmpty',
    { lasts: days, daysToEmpty },
    (v) => v.lasts - v.daysToEmpty,
  );
  const week = openedBy(lastWholeWeek(start, days.value), daysToEmpty);
  return { week, limit: setBy, lot: keeping.lot, because };
}

function seasonEnds(plan: Plan, fill: Fill, daysToEmpty: Figure<'days'>): WindowEdge | undefined {
  const ends = plan.season?.ends;
  const from = fill.sealed ?? fill.lastBin ?? fill.firstBin;
  if (!ends || !from) return undefined;
  const toEnd = countedFigure(
    'days from filling to the end of the season',
    'days',
    ends.value - from.value,
    'days from the filling of the room to the last day of the season',
    [from.at, ends.at],
  );
  const because = compute(
    'days after filling by which the room must be opened to be sold within the season',
    'days',
    'toEnd - daysToEmpty',
    { toEnd, daysToEmpty },
    (v) => v.toEnd - v.daysToEmpty,
  );
  return { week: openedBy(weekOfDay(ends.value), daysToEmpty), limit: 'season', because };
}

/** The opening week that makes `last` the last week of packing. */
function openedBy(last: Week, daysToEmpty: Figure<'days'>): Week {
  return last - weeksToEmpty(daysToEmpty) + 1;
}
