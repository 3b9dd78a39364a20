import type { WorthStoring } from '../../fill/limits';
import type { FillProblem, LotToPlace } from '../../fill/types';
import { formatWeek, type Week, weekOfDay } from '../../plan/dates';
import type { Lot, Plan } from '../../plan/model';
import { demandWanted } from '../../release/demand-wanted';
import { packingWeeks, weeksToEmpty } from '../../release/packing-weeks';
import type { ComputedSeason } from '../types';

/** Cartons reckoned with for each that is still wanted: packout and keeping come out a little differently. */
const SPARE = 1.1;
/** A rest smaller than this share of its lot goes with the lot. */
const SMALL_REST = 0.2;
const DAYS_A_MONTH = 365.2425 / 12;

interface Market {
  readonly firstWeek: Week;
  readonly weeks: number;
  /** The first week that is not past: none of those before it buys or packs any more. */
  readonly now: number;
  /** By variety as the plan writes it and pack class: cartons that no room gives yet, by week. */
  readonly wanted: Map<string, Map<string, number[]>>;
  /** Bins that the packhouse can still run, by week. */
  readonly packing: number[];
  /** Weeks after the opening in which a room is still packed, and its cartons may wait. */
  readonly weeksToSell: number;
}

/**
 * How many bins of each lot are worth a room: those that orders left open by the schedule of the plan as it is can
 * still take while the lot is good, and that the packhouse can still run. Of the lots of a variety those that keep
 * shortest are sold first. Empty where the plan says nothing of its market or its packhouse.
 */
export function worthStoring(season: ComputedSeason, problem: FillProblem): WorthStoring {
  const market = marketLeft(season);
  const worth = new Map<string, { bins: number; reason: string; order: string | undefined }>();
  if (!market) return worth;
  const { plan } = season;
  const inOrder = problem.lots
    .map((one) => ({ one, lot: plan.lots.get(one.id), latest: latestOf(one) }))
    .sort((a, b) => a.latest - b.latest || (a.one.id < b.one.id ? -1 : 1));
  for (const { one, lot, latest } of inOrder) {
    if (!lot) continue;
    const cartons = cartonsABin(plan, lot);
    // Without a packout nothing is known of what it sells for: that is not a reason against it.
    if (!cartons) continue;
    const until = Math.min(market.weeks - 1, latest + market.weeksToSell - market.firstWeek);
    const from = Math.max(market.now, weekOfDay(one.arrivals[0]?.day ?? 0) - market.firstWeek);
    const asked = askedFor(market, lot, cartons, from, until);
    const open = openCartons(market, lot, from, until);
    const packable = sum(market.packing.slice(from, until + 1));
    const useful = Math.min(Math.ceil(asked), Math.floor(packable));
    const bins = one.bins - useful <= SMALL_REST * one.allBins ? one.bins : useful;
    take(market, lot, cartons, Math.min(bins, one.bins), from, until);
    if (bins >= one.bins) continue;
    const reason =
      asked <= packable ? noDemand(plan, market, lot, from, until, asked) : noPacking(market, from, until);
    const enough =
      packable >= one.bins ? orderThatDoes(market, open, lot, cartons, one.bins, from, until) : undefined;
    worth.set(one.id, { bins: Math.max(0, bins), reason, order: enough });
  }
  return worth;
}

function noDemand(plan: Plan, market: Market, lot: Lot, from: number, until: number, asked: number): string {
  const variety = lot.variety?.value ?? '';
  if (until < from)
    return `the weeks in which it is good are past by ${formatWeek(market.firstWeek + from)}. ${GONE}.`;
  const any = [...plan.demand.values()].some((demand) => demand.variety?.value === variety);
  const open = [...(market.wanted.get(variety)?.values() ?? [])].map((weeks) =>
    weeks.findIndex((cartons, week) => week > until && cartons > 0),
  );
  const next = Math.min(...open.filter((week) => week >= 0));
  const when = `${formatWeek(market.firstWeek + from)} to ${formatWeek(market.firstWeek + until)}, while it is good`;
  const why = !any
    ? `no order asks for ${variety}`
    : asked > 0
      ? `orders for ${variety} from ${when}, take no more beside what other fruit gives them`
      : Number.isFinite(next)
        ? `no order for ${variety} is left from ${when}; the next is of ${formatWeek(market.firstWeek + next)}`
        : `no demand is left for ${variety} from ${when}`;
  return `${why}. ${AWAY}, or add an order.`;
}

function noPacking(market: Market, from: number, until: number): string {
  return `the packhouse is full from ${formatWeek(market.firstWeek + from)} to ${formatWeek(market.firstWeek + until)}, while it is good. ${AWAY}, or raise \`bins-a-week\`.`;
}

const GONE = 'In a room it would be kept at a loss: send it to processing';
const AWAY =
  'In a room it would be kept at a loss: sell it early (`packed-at-harvest`) or send it to processing';

/** The last week in which a lot is within standard in the best of the regimes it may be kept in. */
function latestOf({ keeps }: LotToPlace): Week {
  return Math.max(...keeps.flatMap((one) => (one ? [one.latest] : [])));
}

/** What is still open of the orders and of the packhouse, after the schedule of the plan as it is. */
function marketLeft({ plan, release }: ComputedSeason): Market | undefined {
  const { packing, season } = plan;
  const [starts, ends, binsAWeek] = [season?.starts?.value, season?.ends?.value, packing?.binsAWeek?.value];
  if (!packing || starts === undefined || ends === undefined || !binsAWeek || !season?.cartonMass)
    return undefined;
  const firstWeek = weekOfDay(starts);
  const weeks = weekOfDay(ends) - firstWeek + 1;
  if (!(weeks > 0 && weeks < 160)) return undefined;
  const orders = demandWanted(plan, firstWeek, weeks);
  if (orders.length === 0) return undefined;
  const sold = new Map(
    release?.problem.demands.map(({ id }, index) => [id, release.result.schedule.sold[index]] as const) ?? [],
  );
  const wanted: Market['wanted'] = new Map();
  for (const { id, variety, packClass, cartons } of orders) {
    const byClass = wanted.get(variety) ?? new Map<string, number[]>();
    const before = byClass.get(packClass) ?? cartons.map(() => 0);
    const mine = sold.get(id);
    byClass.set(
      packClass,
      before.map((had, week) => had + SPARE * Math.max(0, (cartons[week] ?? 0) - (mine?.[week] ?? 0))),
    );
    wanted.set(variety, byClass);
  }
  const can = packingWeeks(packing, binsAWeek, { starts, ends, firstWeek, weeks }).packingBins;
  const run = can.map((_, week) => sum(release?.result.schedule.packed.map((room) => room[week] ?? 0) ?? []));
  const wait = Math.max(0, Math.floor(packing.packedWait.value / 7) || 0);
  return {
    firstWeek,
    weeks,
    // A week is past once its last day is: what is known goes to the end of that day.
    now: plan.stand === undefined ? 0 : Math.max(0, weekOfDay(plan.stand + 1) - firstWeek),
    wanted,
    packing: can.map((bins, week) => Math.max(0, bins - (run[week] ?? 0))),
    weeksToSell: weeksToEmpty(packing) - 1 + wait,
  };
}

/** Cartons of each pack class that a bin gives when it is packed some months after picking; undefined without a packout. */
function cartonsABin(plan: Plan, lot: Lot): ReadonlyMap<string, number> | undefined {
  const packout = plan.packing?.packout.get(lot.variety?.value ?? '');
  const carton = plan.season?.cartonMass?.value;
  const net = Math.max(...[...plan.binTypes.values()].map(({ netFruit }) => netFruit?.value ?? 0));
  if (!packout || packout.shares.size === 0 || !carton || !(net > 0)) return undefined;
  const [picked, ends] = [lot.picked?.value.last, plan.season?.ends?.value];
  const months =
    picked === undefined || ends === undefined ? 0 : Math.max(0, ends - picked) / 2 / DAYS_A_MONTH;
  const kept = Math.max(0.1, 1 - (packout.lossAMonth.value / 100) * months);
  return new Map(
    [...packout.shares].map(([packClass, { value }]) => [packClass, ((value / 100) * kept * net) / carton]),
  );
}

/** Bins of the lot that open orders of some class ask for. */
function askedFor(
  { wanted }: Market,
  lot: Lot,
  cartons: ReadonlyMap<string, number>,
  from: number,
  until: number,
): number {
  const byClass = wanted.get(lot.variety?.value ?? '');
  let most = 0;
  for (const [packClass, weeks] of byClass ?? []) {
    const each = cartons.get(packClass) ?? 0;
    if (each > 0) most = Math.max(most, sum(weeks.slice(from, until + 1)) / each);
  }
  return most;
}

/** Cartons of each class that open orders still want of the variety while the lot is good. */
function openCartons({ wanted }: Market, lot: Lot, from: number, until: number): Map<string, number> {
  const byClass = wanted.get(lot.variety?.value ?? '') ?? new Map<string, readonly number[]>();
  return new Map([...byClass].map(([packClass, weeks]) => [packClass, sum(weeks.slice(from, until + 1))]));
}

/** The smallest order more, of one class, for which all bins of the lot would be worth a room. */
function orderThatDoes(
  market: Market,
  open: ReadonlyMap<string, number>,
  lot: Lot,
  cartons: ReadonlyMap<string, number>,
  bins: number,
  from: number,
  until: number,
): string | undefined {
  const [least] = [...cartons]
    .filter(([, each]) => each > 0)
    .map(([packClass, each]) => {
      const missing = bins * each - (open.get(packClass) ?? 0);
      return { packClass, cartons: Math.max(1, Math.ceil(missing / SPARE)) };
    })
    .sort((a, b) => a.cartons - b.cartons || (a.packClass < b.packClass ? -1 : 1));
  if (!least || until < from) return undefined;
  const weeks = `${formatWeek(market.firstWeek + from)} to ${formatWeek(market.firstWeek + until)}`;
  return `An order for ${least.cartons.toLocaleString('en')} cartons more of ${lot.variety?.value ?? ''}, class ${least.packClass}, from ${weeks}, would make all its bins worth a room.`;
}

/** Takes the lot's cartons from the earliest open orders, and its bins from the packhouse's time over all its weeks. */
function take(
  market: Market,
  lot: Lot,
  cartons: ReadonlyMap<string, number>,
  bins: number,
  from: number,
  until: number,
): void {
  for (const [packClass, weeks] of market.wanted.get(lot.variety?.value ?? '') ?? []) {
    let left = bins * (cartons.get(packClass) ?? 0);
    for (let week = from; week <= until && left > 0; week++) {
      const taken = Math.min(weeks[week] ?? 0, left);
      weeks[week] = (weeks[week] ?? 0) - taken;
      left -= taken;
    }
  }
  let left = bins;
  for (let week = from; week <= until && left > 0; week++) {
    const taken = Math.min(market.packing[week] ?? 0, left);
    market.packing[week] = (market.packing[week] ?? 0) - taken;
    left -= taken;
  }
}

function sum(list: readonly number[]): number {
  return list.reduce((total, one) => total + one, 0);
}
