import { type Day, firstDayOfWeek, type Week, weekOfDay } from '../plan/dates';
import { compute, countedFigure, type Figure } from '../plan/figure';
import { LetsGo, OF_OLDER_PLAN } from '../plan/late-figure';
import type { Fill, Lot, Plan } from '../plan/model';
import { usualDaysToEmpty } from './assumptions';
import { type Wanted, wantedChance } from './chance';
import { daysFromMonday } from './days-from-monday';
import { type LotTime, lastsFigure, lastsWith, lastWholeWeek, surelyLasts } from './lot-keeping';
import type { LotLimit, RoomKeeping, WindowEdge } from './types';

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
  return season && season.week < week
    ? season
    : new LotEdge(week, weakest.setBy, { lot: weakest.lot, daysToEmpty, wanted });
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

/** What the figure behind a lot's edge is made from. */
interface LotEdgeFrom {
  readonly lot: LotTime;
  readonly daysToEmpty: Figure<'days'>;
  readonly wanted: Wanted;
}

/** An edge that a lot sets. The figure behind it takes longer than all the rest, and hardly anybody asks. */
class LotEdge extends LetsGo<RoomKeeping> implements WindowEdge {
  readonly lot: Lot;
  /** The first day of the lot's picking, which its days count from. */
  readonly #start: Day;
  #from: LotEdgeFrom | (() => WindowEdge | undefined);

  constructor(
    readonly week: Week,
    readonly limit: LotLimit,
    from: LotEdgeFrom,
  ) {
    super();
    this.lot = from.lot.keeping.lot;
    this.#start = from.lot.start;
    this.#from = from;
  }

  get because(): Figure {
    const from = this.#from;
    if (typeof from !== 'function') return lotCallsFor(from);
    const again = from();
    return again && this.#isLike(again) ? again.because : this.#ofOlderPlan();
  }

  /** Whether the edge made again is this one, and not that of a plan that has gone on. */
  #isLike({ week, limit, lot }: WindowEdge): boolean {
    return week === this.week && limit === this.limit && lot?.id === this.lot.id;
  }

  /** All that is still known of an edge of a plan that has gone on since: its week. */
  #ofOlderPlan(): Figure<'days'> {
    return {
      name: `days from the picking of lot ${this.lot.id} to the week by which it called for opening`,
      value: firstDayOfWeek(this.week) - this.#start,
      unit: 'days',
      origin: OF_OLDER_PLAN,
    };
  }

  override letGo(whole: () => RoomKeeping | undefined): void {
    if (typeof this.#from === 'function') return;
    // Both edges of a room that lots set are latest weeks: which of them it is, the chance tells.
    const isLatest = this.#from.wanted === this.#from.lot.wanted;
    this.#from = () => whole()?.window?.[isLatest ? 'latest' : 'bestBefore'];
  }

  /** As any other edge. */
  toJSON(): WindowEdge {
    const { week, limit, lot, because } = this;
    return { week, limit, lot, because };
  }
}

/** The lot's days come to a week by two roundings, each a step of its own: fruit down to whole weeks, packing up. */
function lotCallsFor({ lot, daysToEmpty, wanted }: LotEdgeFrom): Figure<'days'> {
  const { id, picked } = lot.keeping.lot;
  const weekday = daysFromMonday(lot.start, `the day that the days of lot ${id} count from`, picked?.at);
  const keeps = compute(
    `weeks that lot ${id} keeps, rounded down to a Sunday`,
    'weeks',
    'floor((weekday + lasts - 6) / 7)',
    { weekday, lasts: lastsFigure(lot, wanted) },
    // As `lastWholeWeek` has it, with its hair more.
    (v) => Math.floor((v.weekday + v.lasts - 6 + 1e-6) / 7),
  );
  return mondayToOpenOn(
    `days from picking to the Monday that lot ${id} calls for`,
    keeps,
    daysToEmpty,
    weekday,
  );
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
  const weekday = daysFromMonday(from.value, 'the day that the room is filled', from.at);
  const lasts = compute(
    "weeks after that day's to the season's last, which counts whole",
    'weeks',
    'floor((weekday + toEnd) / 7)',
    { weekday, toEnd },
    (v) => Math.floor((v.weekday + v.toEnd) / 7),
  );
  const because = mondayToOpenOn(
    "days after filling to the season's last Monday for opening",
    lasts,
    daysToEmpty,
    weekday,
  );
  return { week: openedBy(weekOfDay(ends.value), daysToEmpty), limit: 'season', because };
}

/** `lastWeek`: weeks from the first day's to the last in which the room may still be packed out. */
function mondayToOpenOn(
  name: string,
  lastWeek: Figure<'weeks'>,
  daysToEmpty: Figure<'days'>,
  weekday: Figure<'days'>,
): Figure<'days'> {
  const toEmpty = compute(
    'weeks of packing, that of opening included, rounded up',
    'weeks',
    'max(1, ceil(daysToEmpty / 7))',
    { daysToEmpty },
    () => weeksToEmpty(daysToEmpty),
  );
  return compute(
    name,
    'days',
    '7 * (lastWeek - toEmpty + 1) - weekday',
    { lastWeek, toEmpty, weekday },
    (v) => 7 * (v.lastWeek - v.toEmpty + 1) - v.weekday,
  );
}

/** The opening week that makes `last` the last week of packing. */
function openedBy(last: Week, daysToEmpty: Figure<'days'>): Week {
  return last - weeksToEmpty(daysToEmpty) + 1;
}
