import { type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import type { Fill, Plan } from '../plan/model';
import { usualDaysToEmpty } from './assumptions';
import { type Wanted, wantedChance } from './chance';
import { type LotTime, lastsFigure, lastsWith, lastWholeWeek, surelyLasts } from './lot-keeping';
import type { LotLimit, WindowEdge } from './types';

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
  return latestEdgeFor(plan, fill, lots, wantedChance(confidence));
}

/** The same where the chance that is wanted is at hand. */
export function latestEdgeFor(
  plan: Plan,
  fill: Fill,
  lots: readonly LotTime[],
  wanted: Wanted,
): WindowEdge | undefined {
  const daysToEmpty = plan.packing?.daysToEmpty ?? usualDaysToEmpty;
  const weakest = weakestOf(lots, wanted);
  if (!weakest) return undefined;
  const season = seasonEnds(plan, fill, daysToEmpty);
  const week = openedBy(weakest.lastWeek, daysToEmpty);
  return season && season.week < week ? season : lotEdge(weakest, week, daysToEmpty, wanted);
}

/** The lot that lasts shortest, and its last whole week. */
interface Weakest {
  readonly lot: LotTime;
  readonly lastWeek: Week;
  readonly setBy: LotLimit;
}

/**
 * The first of those that last as short. With the chance that their keeping was made for it is known how long they last;
 * with another most are sure to last longer than the weakest so far, and are not asked.
 */
function weakestOf(lots: readonly LotTime[], wanted: Wanted): Weakest | undefined {
  let weakest: Weakest | undefined;
  for (const lot of lots) {
    if (lot.wanted === wanted) {
      const { latest, latestSetBy } = lot.keeping;
      if (!weakest || latest < weakest.lastWeek) weakest = { lot, lastWeek: latest, setBy: latestSetBy };
    } else if (!(weakest && surelyLasts(lot, weakest.lastWeek, wanted))) {
      const { days, setBy } = lastsWith(lot, wanted);
      const lastWeek = lastWholeWeek(lot.start, days);
      if (!weakest || lastWeek < weakest.lastWeek) weakest = { lot, lastWeek, setBy };
    }
  }
  return weakest;
}

/** Weeks over which an opened room is packed out, the opening week included. */
export function weeksToEmpty(daysToEmpty: Figure<'days'>): number {
  return Math.max(1, Math.ceil(daysToEmpty.value / 7) || 1);
}

function lotEdge(
  { lot, setBy }: Weakest,
  week: Week,
  daysToEmpty: Figure<'days'>,
  wanted: Wanted,
): WindowEdge {
  const { id } = lot.keeping.lot;
  const because = compute(
    `days from picking by which lot ${id} calls for opening`,
    'days',
    'lasts - daysToEmpty',
    { lasts: lastsFigure(lot, wanted), daysToEmpty },
    (v) => v.lasts - v.daysToEmpty,
  );
  return { week, limit: setBy, lot: lot.keeping.lot, because };
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
