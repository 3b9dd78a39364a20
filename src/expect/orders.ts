import { formatWeek, type Week } from '../plan/dates';
import type { OrdersMeant, ShortageClaim } from '../plan/expect-model';
import { countedFigure } from '../plan/figure';
import { counted, isOrAre, listed } from '../plan/wording';
import { curesOf, type Cure as ShortageCure } from '../release/cures';
import { LEAST_CARTONS } from '../release/least-cartons';
import { sourcesOf } from '../release/sources';
import {
  type Context,
  noSchedule,
  notJudged,
  notRecordedText,
  OUTSIDE_SEASON,
  promisedWeeks,
  recordedUntil,
} from './context';
import { openedCure, unpinnedCure } from './moves';
import type { Cure, Verdict } from './types';
import { unpinnedPair } from './unpinned-pair';
import { ofOrders } from './words';

interface ShortWeek {
  /** Index into the problem's demands. */
  readonly demand: number;
  readonly id: string;
  readonly week: Week;
  readonly short: number;
}

/** Cartons of the orders meant that the schedule does not deliver. */
export function judgeShortage(context: Context, claim: ShortageClaim): Verdict {
  const { release } = context.season;
  const { whole } = context;
  if (!release || !whole) return notJudged(claim.at, noSchedule(context));
  const weeks = promisedWeeks(context.season, claim);
  if (!weeks) return notJudged((claim.before ?? claim.from)?.at ?? claim.at, OUTSIDE_SEASON);
  const meant = ordersMeant(context, claim);
  if (meant.length === 0) return notJudged(claim.at, noOrder(context, claim));
  const { problem } = release;
  const found = meant.flatMap((demand): ShortWeek[] =>
    (whole.demands[demand]?.cartons ?? []).map((wanted, at) => ({
      demand,
      id: whole.demands[demand]?.id ?? '',
      week: problem.firstWeek + at,
      short: wanted - (whole.sold[demand]?.[at] ?? 0),
    })),
  );
  const inWeeks = found.filter(({ week }) => week >= weeks.first && week <= weeks.last);
  const wanted = meant.reduce((all, demand) => all + wantedIn(context, demand, weeks), 0);
  const unknown = notRecordedText(context).trim();
  if (unknown !== '' && wanted < LEAST_CARTONS) return notJudged(claim.at, unknown);
  const shortWeeks = inWeeks.filter(({ short }) => short >= LEAST_CARTONS);
  const short = shortWeeks.reduce((all, one) => all + one.short, 0);
  const most = claim.kind === 'no-shortage' ? 0 : (claim.atMost?.value ?? Number.POSITIVE_INFINITY);
  const least = claim.atLeast?.value ?? 0;
  const promised =
    (short < least ? claim.atLeast : claim.atMost) ??
    claim.atLeast ??
    countedFigure('cartons short at most', 'cartons', 0, 'no shortage is promised');
  const measured = countedFigure('cartons short', 'cartons', short, 'orders less what is sold, week by week');
  const told = {
    promised: { kind: 'figure', figure: promised },
    measured: { kind: 'figure', figure: measured },
  } as const;
  const at = promised.origin.kind === 'plan' ? promised.origin.at : claim.at;
  // Cartons are told as whole ones, and judged so.
  const isShort = Math.round(short) > most;
  if (!isShort && Math.round(short) >= least)
    return { state: 'kept', ...told, why: keptText(context, shortWeeks, wanted), cures: [], at };
  if (!isShort)
    return {
      state: 'broken',
      ...told,
      why: `Only ${counted(short, 'carton')} of ${counted(wanted, 'carton')} ${isOrAre(short)} missing.${notRecordedText(context)}`,
      cures: [],
      at,
    };
  return {
    state: 'broken',
    ...told,
    why: shortText(context, shortWeeks, short, wanted, short - most),
    cures: curesFor(context, shortWeeks, inWeeks, most),
    at,
  };
}

function wantedIn(
  { season: { release }, whole }: Context,
  demand: number,
  weeks: { first: Week; last: Week },
): number {
  if (!release) return 0;
  const { cartons = [] } = whole?.demands[demand] ?? {};
  return cartons.reduce((all, one, at) => {
    const week = release.problem.firstWeek + at;
    return week >= weeks.first && week <= weeks.last ? all + one : all;
  }, 0);
}

function ordersMeant({ season }: Context, { market, variety, packClass }: OrdersMeant): number[] {
  const { plan, fruit, release } = season;
  const name = variety && (fruit.variety(variety.value)?.name ?? variety.value);
  return (release?.problem.demands ?? []).flatMap(({ id }, index) => {
    const demand = plan.demand.get(id);
    if (!demand) return [];
    if (market && demand.market?.value !== market.value) return [];
    if (packClass && demand.packClass?.value !== packClass.value) return [];
    const own = demand.variety && (fruit.variety(demand.variety.value)?.name ?? demand.variety.value);
    return name !== undefined && own !== name ? [] : [index];
  });
}

function noOrder({ season: { plan } }: Context, claim: OrdersMeant): string {
  const orders = [...plan.demand.values()];
  const known = (all: readonly (string | undefined)[]) =>
    listed([...new Set(all.filter((one) => one !== undefined))].sort(), 6);
  const there =
    orders.length === 0
      ? 'The plan has no demand.'
      : `The orders are of ${known(orders.map(({ variety }) => variety?.value))}, for ${known(orders.map(({ market }) => market?.value))}, in ${known(orders.map(({ packClass }) => packClass?.value))}.`;
  return `There is no order${ofOrders(claim)}. ${there}`;
}

function keptText(context: Context, weeks: readonly ShortWeek[], wanted: number): string {
  const short = cartonsOf(weeks);
  const does =
    short < LEAST_CARTONS
      ? `delivers all of ${counted(wanted, 'carton')}`
      : `leaves ${counted(short, 'carton')} of ${counted(wanted, 'carton')} undelivered`;
  return `${deliverer(context)} ${does}${recordedText(context, weeks)}.${notRecordedText(context)}`;
}

/** What delivers: the schedule, with what has been delivered before it. */
function deliverer(context: Context): string {
  return `${capital(context.schedule)}${recordedUntil(context) === undefined ? '' : ', with what has been delivered,'}`;
}

/** How much of what is short was so before the schedule begins; empty where nothing was. */
function recordedText(context: Context, weeks: readonly ShortWeek[]): string {
  const until = recordedUntil(context);
  const past = cartonsOf(weeks.filter(({ week }) => isPast(context, week)));
  if (until === undefined || past < LEAST_CARTONS) return '';
  const part = Math.round(past) === Math.round(cartonsOf(weeks)) ? 'all' : counted(past, 'carton');
  return `, ${part} of it before ${formatWeek(until)} as recorded`;
}

function isPast({ toCome }: Context, week: Week): boolean {
  return toCome !== undefined && week < toCome;
}

function cartonsOf(weeks: readonly ShortWeek[]): number {
  return weeks.reduce((all, { short }) => all + short, 0);
}

function shortText(
  context: Context,
  weeks: readonly ShortWeek[],
  short: number,
  wanted: number,
  tooMany: number,
): string {
  const byWeek = new Map<Week, number>();
  for (const one of weeks) byWeek.set(one.week, (byWeek.get(one.week) ?? 0) + one.short);
  const first = Math.min(...byWeek.keys());
  const worst = worstOf(weeks);
  const toCome = weeks.filter(({ week }) => !isPast(context, week));
  const bins = binsFor(context, toCome, tooMany);
  const over = Math.round(tooMany) < Math.round(short) ? `, ${counted(tooMany, 'carton')} too many` : '';
  return [
    `${deliverer(context)} leaves ${counted(short, 'carton')} of ${counted(wanted, 'carton')} undelivered${over}${recordedText(context, weeks)}, in ${counted(byWeek.size, 'week')} from ${formatWeek(first)}`,
    worst ? `; most of ${worst.id} in ${formatWeek(worst.week)}: ${counted(worst.short, 'carton')}` : '',
    '.',
    notRecordedText(context),
    bins > 0
      ? ` The fruit of ${counted(bins, 'bin')} more in those ${toCome.length < weeks.length ? 'of them that are still to come' : 'weeks'} would do.`
      : '',
  ].join('');
}

function worstOf(weeks: readonly ShortWeek[]): ShortWeek | undefined {
  return weeks.reduce<ShortWeek | undefined>(
    (worst, one) => (one.short > (worst?.short ?? 0) ? one : worst),
    undefined,
  );
}

/**
 * Bins that would give the cartons by which too many are missing, each of the room whose bins give most of them in that
 * week; weeks in which a bin gives most come first. 0 where no bins in these weeks give as many.
 */
function binsFor({ season: { release } }: Context, weeks: readonly ShortWeek[], tooMany: number): number {
  if (!release) return 0;
  const { problem } = release;
  const parts = weeks.map(({ demand, week, short }) => {
    const one = problem.demands[demand];
    const at = week - problem.firstWeek;
    const products = one ? sourcesOf(problem, one).filter(({ until }) => at <= until) : [];
    const best = Math.max(
      0,
      ...problem.rooms.map(({ cartonsABin }) =>
        products.reduce((all, { product }) => all + (cartonsABin[at]?.[product] ?? 0), 0),
      ),
    );
    return { best, short };
  });
  let [bins, left] = [0, tooMany];
  for (const { best, short } of parts.sort((a, b) => b.best - a.best)) {
    const given = Math.min(short, left);
    if (best <= 0 || given <= 0) break;
    bins += given / best;
    left -= given;
  }
  return left < LEAST_CARTONS ? Math.ceil(bins) : 0;
}

/** What would cure the week that is short by most, worked out on the schedule. */
function curesFor(
  context: Context,
  weeks: readonly ShortWeek[],
  promised: readonly ShortWeek[],
  most: number,
): Cure[] {
  const past = cartonsOf(weeks.filter(({ week }) => isPast(context, week)));
  const lost =
    Math.round(past) > most
      ? [
          {
            text: `Weeks that are past were short of ${counted(past, 'carton')}, which no schedule makes up for.`,
            fixes: [],
          },
        ]
      : [];
  const standing = context.standing();
  const worst = worstOf(weeks.filter(({ week }) => !isPast(context, week)));
  if (!worst) return lost;
  const { release } = context.season;
  if (!standing || !release) return lost;
  const { problem } = release;
  const at = worst.week - problem.firstWeek;
  const whatIf = (room: number, week: number) => standing.whatIf(room, week);
  const [cure] = curesOf(standing, whatIf, (demand, week) => demand === worst.demand && week === at);
  if (!cure) return lost;
  const unpinned = unpinCures(context, cure, promised);
  return [...lost, ...cureTexts(context, cure, worst, unpinned), smallerOrder(worst, weeks)];
}

/**
 * A pin to take out as a cure, or the pins of two rooms that must move together, with what then stays short in all the
 * weeks of the orders that the promise is for.
 */
function unpinCures(context: Context, { unpin }: ShortageCure, promised: readonly ShortWeek[]): Cure[] {
  const standing = context.standing();
  const { release } = context.season;
  if (!unpin || !standing || !release) return [];
  const { problem } = release;
  const short = promised.reduce((all, one) => all + Math.max(0, one.short), 0);
  const leftWith = (sold: readonly Float64Array[]) =>
    promised.reduce((all, { demand, week, short: now }) => {
      if (isPast(context, week)) return all + Math.max(0, now);
      const at = week - problem.firstWeek;
      return all + Math.max(0, (problem.demands[demand]?.cartons[at] ?? 0) - (sold[demand]?.[at] ?? 0));
    }, 0);
  const gives = (left: number) => `${Math.round(left)} of ${counted(short, 'carton')} stay short`;
  if (unpin.also) {
    const pair = unpinnedPair(context, standing, unpin);
    if (!pair) return [];
    const left = leftWith(pair.sold);
    return left <= short - LEAST_CARTONS ? [pair.cure(gives(left))] : [];
  }
  const found = standing.whatIf(unpin.room, unpin.week);
  const room = problem.rooms[unpin.room];
  if (!found || !room) return [];
  const sold = standing.sold.map((row, demand) =>
    found.touched.includes(demand) ? (found.sold[demand] ?? row) : row,
  );
  return [unpinnedCure(context, room.fill, problem.firstWeek + unpin.week, gives(leftWith(sold)))];
}

function cureTexts(
  context: Context,
  cure: ShortageCure,
  worst: ShortWeek,
  unpinned: readonly Cure[],
): Cure[] {
  const { release } = context.season;
  if (!release) return [];
  const { problem } = release;
  const cures: Cure[] = [];
  const { move, packing } = cure;
  const fill = move && problem.rooms[move.room]?.fill;
  if (move && fill !== undefined) {
    const also = move.also && problem.rooms[move.also.room]?.fill;
    const beside =
      move.also && also !== undefined
        ? `, with ${also} moved to ${formatWeek(problem.firstWeek + move.also.week)} to make way`
        : '';
    cures.push(
      openedCure(
        context,
        fill,
        problem.firstWeek + move.week,
        `delivers ${counted(move.cartons, 'carton')} more of ${worst.id}${beside}`,
      ),
    );
  }
  if (packing)
    cures.push({
      text: `${counted(packing.bins, 'bin')} more run in ${formatWeek(problem.firstWeek + packing.week)}, while a room with the fruit stands open, give ${counted(packing.cartons, 'carton')} of it.`,
      fixes: [],
    });
  if (cure.nothingInReach)
    cures.push({
      text: `No room that may be opened in time for ${formatWeek(worst.week)} holds any of it: another week of opening does not help there.`,
      fixes: [],
    });
  return [...cures, ...unpinned];
}

/** An order taken down by what is short in the worst week, and what that leaves short elsewhere. */
function smallerOrder(worst: ShortWeek, weeks: readonly ShortWeek[]): Cure {
  const elsewhere = weeks.reduce((all, one) => all + one.short, 0) - worst.short;
  const rest =
    elsewhere < LEAST_CARTONS ? '' : `; ${counted(elsewhere, 'carton')} of other weeks or orders stay short`;
  return {
    text: `An order of ${worst.id} smaller by ${counted(worst.short, 'carton')} in ${formatWeek(worst.week)} is met there${rest}.`,
    fixes: [],
  };
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
