import { formatWeek, type Week, weekOfDay } from '../../plan/dates';
import type { Demand, Lot, Plan } from '../../plan/model';
import type { Problem } from '../../plan/problem';
import { counted, listed } from '../../plan/wording';
import { binsInNoFill } from '../../release/field-sources';
import { mostForOrder } from '../../release/most-for-order';
import { notRecorded, toldOf } from '../../release/season-whole';
import { isQuick } from '../../release/simple-bound';
import { classMissing } from '../class-missing';
import { noSupply } from '../order-supply';
import { perCent } from '../say';
import type { ComputedSeason, Rule } from '../types';
import { softerThanMarketWants } from './market-firmness';
import { mayBeWantedUnread } from './unread-orders';

/** A shortage below this share of the whole order is not worth a finding; common practice. */
const WORTH_TELLING = 0.01;

function* demandShort(season: ComputedSeason): Iterable<Problem> {
  const { plan, release } = season;
  if (!release) return;
  const { problem, result } = release;
  const quick = isQuick(result);
  const told = toldOf(problem, result.schedule, plan);
  const unknown = notRecorded(problem, plan);
  const left = unknown
    ? ` What was delivered before ${formatWeek(unknown.before)} is not counted: no ${unknown.missing} is recorded.`
    : '';
  let withoutSupply: ReadonlySet<Demand> | undefined;
  const isToldElsewhere = (demand: Demand) => {
    // Seldom needed: an order of which nothing is delivered.
    withoutSupply ??= ordersWithoutSupply(season);
    return withoutSupply.has(demand) || classMissing(season, demand) !== undefined;
  };
  for (const [index, wanted] of told.demands.entries()) {
    const demand = plan.demand.get(wanted.id);
    const sold = told.sold[index] ?? [];
    const shortWeeks = wanted.cartons
      .map((cartons, week) => ({ week, cartons, short: cartons - (sold[week] ?? 0) }))
      .filter(({ short }) => short >= 1);
    const first = shortWeeks[0];
    if (!demand || !first) continue;
    const all = total(wanted.cartons);
    const short = shortWeeks.reduce((sum, week) => sum + week.short, 0);
    if (short < all * WORTH_TELLING) continue;
    if (total(sold) < 1 && isToldElsewhere(demand)) continue;
    const worst = shortWeeks.reduce((best, week) => (week.short > best.short ? week : best), first);
    yield {
      code: 'demand-short',
      message: `${wanted.id}: the ${quick ? 'quick schedule' : 'schedule found'} leaves ${counted(short, 'carton')} of ${counted(all, 'carton')} undelivered (${perCent((short / all) * 100)}), in ${counted(shortWeeks.length, 'week')} from ${formatWeek(problem.firstWeek + first.week)}; most in ${formatWeek(problem.firstWeek + worst.week)} (${counted(worst.short, 'carton')}).${left}${betterText(season, release, demand, index)}`,
      at: demand.at,
      about: wanted.id,
    };
  }
}

/** What no schedule can deliver of an order, and whether another may be better: said only where nothing proves otherwise. */
function betterText(
  season: ComputedSeason,
  { problem, result }: NonNullable<ComputedSeason['release']>,
  order: Demand,
  index: number,
): string {
  const demand = problem.demands[index];
  if (!demand) return '';
  const most = mostForOrder(problem, demand, result.unmet);
  if (most < 1) return nothingText(season, order);
  const limit =
    most + 1 <= total(demand.cartons)
      ? ` No schedule delivers more than ${counted(Math.ceil(most - 1e-6), 'carton')} of it, were every room opened for it alone: their windows, the days to empty them, how long packed fruit may wait and the packhouse give no more of its variety and class in its weeks. Other orders may leave it less.`
      : '';
  if (total(result.schedule.sold[index] ?? []) + 1 > most) return limit;
  if (isQuick(result)) return `${limit} The release search may find a better schedule.`;
  return result.provenOptimal ? `${limit} No schedule of this plan is worth more.` : limit;
}

/** Why no schedule delivers any of an order, and what would: nothing is said without something to do. */
function nothingText(season: ComputedSeason, order: Demand): string {
  const found = noSupply(season, order);
  return found
    ? ` No schedule delivers any of it: ${found.why}. To do: ${found.cure}.`
    : ' No schedule delivers any of it: no room gives fruit of its variety and class in its weeks. To do: plan a room of it for these weeks, move the order, or buy in.';
}

function total(cartons: readonly number[]): number {
  return cartons.reduce((sum, one) => sum + one, 0);
}

/** Varieties in the fills, and of lots packed at harvest, by their reference name, each with a lot of it. */
function varietiesForSale({ plan, filled, fruit }: ComputedSeason): Map<string, Lot> {
  const found = new Map<string, Lot>();
  // From the last to the first, whose lot then stands for the variety.
  for (const lot of packedAtHarvest(plan).reverse()) {
    const name = lot.variety && fruit.variety(lot.variety.value)?.name;
    if (name !== undefined) found.set(name, lot);
  }
  for (const { lots } of [...filled.values()].reverse())
    for (let index = lots.length - 1; index >= 0; index--) {
      const part = lots[index];
      if (part) found.set(part.variety.name, part.lot);
    }
  return found;
}

/** Varieties of lots that fills name, also of fills of which nothing can be computed; undefined of one that is not known. */
function varietiesOfFills({ plan, fruit }: ComputedSeason): Set<string | undefined> {
  const lots = [...plan.fills.values()].flatMap((fill) => fill.lots);
  return new Set(
    lots.map(({ lot }) => {
      const variety = plan.lots.get(lot.value)?.variety;
      return variety && fruit.variety(variety.value)?.name;
    }),
  );
}

/** Lots packed at harvest of which bins are in no fill. */
function packedAtHarvest(plan: Plan): Lot[] {
  return [...plan.lots.values()].filter((lot) => lot.packedAtHarvest && binsInNoFill(plan, lot) > 0);
}

/** Orders for a variety that is in no room, as far as can be read: of these `demand-without-supply` tells, and no other. */
function ordersWithoutSupply(season: ComputedSeason): ReadonlySet<Demand> {
  const orders = new Set<Demand>();
  if (season.plan.fills.size === 0) return orders;
  const stored = varietiesForSale(season);
  let planned: ReturnType<typeof varietiesOfFills> | undefined;
  for (const demand of season.plan.demand.values()) {
    const variety = demand.variety && season.fruit.variety(demand.variety.value);
    if (!variety || stored.has(variety.name)) continue;
    // Seldom needed: to look for it is to go through all lots.
    planned ??= varietiesOfFills(season);
    // A lot that is in a room but cannot be read may be of any variety; it is told itself.
    if (planned.has(undefined)) return orders;
    if (!planned.has(variety.name)) orders.add(demand);
  }
  return orders;
}

function* demandWithoutSupply(season: ComputedSeason): Iterable<Problem> {
  for (const demand of ordersWithoutSupply(season)) {
    const variety = demand.variety && season.fruit.variety(demand.variety.value);
    if (!variety || !demand.variety) continue;
    yield {
      code: 'demand-without-supply',
      message: `${demand.id} wants ${variety.name}, and no room holds any. Fill a room with it, or take the order out.`,
      at: demand.variety.at,
      about: demand.id,
    };
  }
}

function* supplyWithoutDemand(season: ComputedSeason): Iterable<Problem> {
  if (season.plan.demand.size === 0) return;
  const wanted = new Set(
    [...season.plan.demand.values()].map(
      ({ variety }) => variety && season.fruit.variety(variety.value)?.name,
    ),
  );
  const mayBeWanted = mayBeWantedUnread(season);
  for (const [name, { variety }] of varietiesForSale(season)) {
    if (wanted.has(name) || !variety || mayBeWanted(name)) continue;
    yield {
      code: 'supply-without-demand',
      message: `${name} is stored, and no demand asks for it: none of it would be sold. Add its markets under \`demand\`.`,
      at: variety.at,
      about: name,
    };
  }
}

function* classNotPacked(season: ComputedSeason): Iterable<Problem> {
  let withoutSupply: ReadonlySet<Demand> | undefined;
  for (const demand of season.plan.demand.values()) {
    const missing = classMissing(season, demand);
    if (missing === undefined || !demand.variety || !demand.packClass) continue;
    const packout = missing === 'none' ? undefined : missing;
    // A variety that is nowhere needs no packout shares either: that it is nowhere is told.
    if (!packout) {
      withoutSupply ??= ordersWithoutSupply(season);
      if (withoutSupply.has(demand)) continue;
    }
    yield {
      code: 'class-not-packed',
      message:
        packout && packout.shares.size > 0
          ? `${demand.id} wants the class \`${demand.packClass.value}\`, but ${demand.variety.value} packs into ${listed([...packout.shares.keys()].map((key) => `\`${key}\``))}. Use one of these, or add its share under \`packing\`.`
          : `${demand.id} wants ${demand.variety.value}, which has no packout shares. Add them under \`packing\`.`,
      at: packout ? demand.packClass.at : demand.variety.at,
      related: packout ? [{ at: packout.at, message: 'Its packout' }] : [],
      about: demand.id,
    };
  }
}

function* packoutAboveWhole({ plan }: ComputedSeason): Iterable<Problem> {
  for (const packout of plan.packing?.packout.values() ?? []) {
    const sum = [...packout.shares.values()].reduce((total, { value }) => total + value, 0);
    if (sum <= 100 + 1e-9) continue;
    yield {
      code: 'packout-above-whole',
      message: `${packout.id}: the shares add up to ${sum} %, more than the fruit there is. Lower them to 100 % or less.`,
      at: packout.at,
      about: packout.id,
    };
  }
}

function* harvestPackingUnwanted({ plan, fruit }: ComputedSeason): Iterable<Problem> {
  if (plan.demand.size === 0) return;
  for (const lot of packedAtHarvest(plan)) {
    const name = lot.variety && fruit.variety(lot.variety.value)?.name;
    const days = lot.packedAtHarvest;
    if (!name || !lot.picked || !days) continue;
    const first = weekOfDay(lot.picked.value.first);
    const last = weekOfDay(lot.picked.value.last + Math.floor(days.value));
    const wait = Math.floor((plan.packing?.packedWait.value ?? 0) / 7);
    const orders = [...plan.demand.values()].filter(
      ({ variety }) => variety && fruit.variety(variety.value)?.name === name,
    );
    if (orders.some((order) => wantsWithin(order, first, last + wait))) continue;
    const later = orders.flatMap(({ weeks }) =>
      weeks && weeks.value.first > last ? [weeks.value.first] : [],
    );
    const next =
      later.length === 0
        ? 'No order asks for it later either.'
        : `The next order begins in ${formatWeek(Math.min(...later))}: for it, put them into a room.`;
    yield {
      code: 'harvest-packing-without-demand',
      message: `Lot ${lot.id}: ${counted(binsInNoFill(plan, lot), 'bin')} are to be packed at harvest, ${formatWeek(first)} to ${formatWeek(last)}, and no order asks for ${name} in these weeks or while its cartons may wait${wait > 0 ? ` (to ${formatWeek(last + wait)})` : ''}: they go to processing. Add an order for these weeks. ${next}`,
      at: days.origin.kind === 'plan' ? days.origin.at : lot.at,
      related: [{ at: lot.at, message: `${lot.id} is defined here` }],
      about: lot.id,
    };
  }
}

function wantsWithin({ weeks, cartons, byWeek }: Demand, first: Week, last: Week): boolean {
  if (!weeks) return false;
  for (let week = Math.max(first, weeks.value.first); week <= Math.min(last, weeks.value.last); week++)
    if (((byWeek.get(week) ?? cartons)?.value ?? 0) > 0) return true;
  return false;
}

function* marketsWithoutDemand({ plan }: ComputedSeason): Iterable<Problem> {
  const markets = new Set([...plan.demand.values()].flatMap(({ market }) => (market ? [market.value] : [])));
  if (markets.size === 0) return;
  for (const fill of plan.fills.values()) {
    for (const market of fill.forMarkets ?? []) {
      if (markets.has(market.value)) continue;
      yield {
        code: 'market-without-demand',
        message: `${fill.id} is kept for the market \`${market.value}\`, from which no demand comes: its fruit is not sold there. The markets are ${listed([...markets].map((name) => `\`${name}\``))}.`,
        at: market.at,
        about: fill.id,
      };
    }
  }
}

export const demandRules: readonly Rule[] = [
  {
    code: 'demand-short',
    family: 'demand',
    severity: 'warning',
    summary: 'Cartons that the schedule does not deliver.',
    find: demandShort,
  },
  {
    code: 'demand-without-supply',
    family: 'demand',
    severity: 'warning',
    summary: 'A variety is wanted that no room holds.',
    find: demandWithoutSupply,
  },
  {
    code: 'supply-without-demand',
    family: 'demand',
    severity: 'notice',
    summary: 'A variety is stored that nobody wants.',
    find: supplyWithoutDemand,
  },
  {
    code: 'class-not-packed',
    family: 'demand',
    severity: 'error',
    summary: 'A pack class that the variety is not packed into.',
    find: classNotPacked,
  },
  {
    code: 'packout-above-whole',
    family: 'demand',
    severity: 'error',
    summary: 'Packout shares add up to more than the fruit.',
    find: packoutAboveWhole,
  },
  {
    code: 'softer-than-market-wants',
    family: 'demand',
    severity: 'notice',
    summary: 'Lots expected softer than the buyer accepts.',
    find: softerThanMarketWants,
  },
  {
    code: 'harvest-packing-without-demand',
    family: 'demand',
    severity: 'warning',
    summary: 'Fruit packed at harvest that nobody wants then.',
    find: harvestPackingUnwanted,
  },
  {
    code: 'market-without-demand',
    family: 'demand',
    severity: 'warning',
    summary: 'A room is kept for a market that orders nothing.',
    find: marketsWithoutDemand,
  },
];
