import { firstDayOfWeek, formatWeek, type Week } from '../plan/dates';
import { figureWith } from '../plan/figure';
import type { Demand } from '../plan/model';
import { counted, listed } from '../plan/wording';
import { binsInNoFill } from '../release/field-sources';
import { classMissing } from './class-missing';
import { shower } from './say';
import type { ComputedSeason } from './types';
import { areBinsRead } from './unknown-fruit';

/** Rooms told of many. */
const MOST_TOLD = 3;

/** Why nothing is there for an order in some weeks, and what to do about it: sentences without their full stops. */
export interface NoSupply {
  readonly kind: 'class' | 'variety' | 'market' | 'firmness' | 'weeks';
  readonly why: string;
  readonly cure: string;
}

/** A lot of the order's variety in a room, and the weeks in which the room may be opened. */
interface StoredLot {
  readonly lot: string;
  readonly fill: string;
  readonly first: Week;
  /** The last week in which its cartons can be sold. */
  readonly last: Week;
  readonly isForMarket: boolean;
  firmnessOn(day: number): number | undefined;
}

/**
 * Why no room gives fruit for an order in the weeks asked about, which are the order's own by default. To be asked only
 * where none does: it goes through the rooms of its variety.
 */
export function noSupply(
  season: ComputedSeason,
  demand: Demand,
  weeks: { readonly first: Week; readonly last: Week } | undefined = demand.weeks?.value,
): NoSupply | undefined {
  const variety = demand.variety && season.fruit.variety(demand.variety.value);
  if (!variety || !demand.packClass || !weeks) return undefined;
  const missing = classMissing(season, demand);
  const stored = storedLots(season, variety.name, demand);
  if (stored.length === 0 && !mayBeStored(season, variety.name)) {
    return {
      kind: 'variety',
      why: `no room holds ${variety.name}, and no lot of it is packed at harvest`,
      cure: 'fill a room with it, or take the order out',
    };
  }
  if (missing !== undefined) {
    const shares = missing === 'none' ? [] : [...missing.shares.keys()];
    return {
      kind: 'class',
      why: `${variety.name} is not packed into the class ${demand.packClass.value}${shares.length > 0 ? `: its packout has ${listed(shares)}` : ': it has no packout'}`,
      cure:
        shares.length > 0
          ? 'order one of these, or add the class under `packing`'
          : 'add its packout under `packing`',
    };
  }
  if (stored.length === 0) return undefined;
  const ofMarket = stored.filter(({ isForMarket }) => isForMarket);
  if (ofMarket.length === 0) {
    return {
      kind: 'market',
      why: `${variety.name} is in ${rooms(stored)}, kept for other markets`,
      cure: 'name its market in `for-markets` there, or fill another room for it',
    };
  }
  const inTime = ofMarket.filter(({ first, last }) => first <= weeks.last && last >= weeks.first);
  if (inTime.length === 0) return outOfReach(variety.name, ofMarket, weeks);
  return demand.leastFirmness && tooSoft(season, demand.leastFirmness, inTime, weeks);
}

function outOfReach(
  variety: string,
  stored: readonly StoredLot[],
  weeks: { readonly first: Week },
): NoSupply {
  const first = Math.min(...stored.map((one) => one.first));
  const last = Math.max(...stored.map((one) => one.last));
  const isLater = last < weeks.first;
  return {
    kind: 'weeks',
    why: `${variety} is in ${rooms(stored)}, whose cartons can be sold from ${formatWeek(first)} to ${formatWeek(last)}`,
    cure: isLater
      ? 'bring the order forward, keep a room of it longer (firmer lots, another regime), or buy in'
      : 'put the order back, plan a room of it for earlier weeks, or buy in',
  };
}

/** The firmest lot in the first week in which one can be sold to the order: if that is too soft, so are all others. */
function tooSoft(
  season: ComputedSeason,
  least: NonNullable<Demand['leastFirmness']>,
  stored: readonly StoredLot[],
  weeks: { readonly first: Week; readonly last: Week },
): NoSupply | undefined {
  const show = shower(season);
  let best: { readonly newtons: number; readonly lot: StoredLot; readonly week: Week } | undefined;
  for (const lot of stored) {
    const week = Math.max(weeks.first, lot.first);
    const newtons = lot.firmnessOn(firstDayOfWeek(week) + 6);
    // Fruit of which it is not known is not refused.
    if (newtons === undefined || newtons >= least.value) return undefined;
    if (!best || newtons > best.newtons) best = { newtons, lot, week };
  }
  if (!best) return undefined;
  const { newtons, lot, week } = best;
  return {
    kind: 'firmness',
    why: `it wants at least ${show(least)}, and the firmest lot stored, ${lot.lot} in ${lot.fill}, is expected at ${show(figureWith(least, { value: newtons }))} in ${formatWeek(week)}`,
    cure: 'agree on a lower `least-firmness`, bring the order forward, or buy in',
  };
}

/** Lots of the variety in rooms that may be opened; those packed at harvest have other weeks and are not among them. */
function storedLots({ keeping, plan }: ComputedSeason, variety: string, demand: Demand): StoredLot[] {
  const emptying = Math.ceil((plan.packing?.daysToEmpty.value ?? 7) / 7) - 1;
  const wait = Math.floor((plan.packing?.packedWait.value ?? 0) / 7);
  return [...keeping.values()].flatMap(({ filled, lots, window }) => {
    const markets = filled.fill.forMarkets ?? [];
    const isForMarket = markets.length === 0 || markets.some(({ value }) => value === demand.market?.value);
    if (!window) return [];
    const pin = filled.fill.open?.value;
    return lots.flatMap((lot) =>
      lot.inRoom.variety.name === variety
        ? [
            {
              lot: lot.lot.id,
              fill: filled.fill.id,
              first: pin ?? window.earliest.week,
              last: (pin ?? window.latest.week) + emptying + wait,
              isForMarket,
              firmnessOn: (day: number) => lot.firmnessOn(day),
            },
          ]
        : [],
    );
  });
}

/** Whether fruit of the variety is, or may be, somewhere of which no window can be told. */
function mayBeStored({ plan, fruit }: ComputedSeason, variety: string): boolean {
  const isOf = (name: string | undefined) =>
    name === undefined || (fruit.variety(name)?.name ?? variety) === variety;
  for (const fill of plan.fills.values()) {
    if (!areBinsRead({ fill })) return true;
    if (fill.lots.some(({ lot }) => isOf(plan.lots.get(lot.value)?.variety?.value))) return true;
  }
  return [...plan.lots.values()].some(
    (lot) => lot.packedAtHarvest && isOf(lot.variety?.value) && binsInNoFill(plan, lot) > 0,
  );
}

function rooms(stored: readonly StoredLot[]): string {
  const names = [...new Set(stored.map(({ fill }) => fill))];
  const more = names.length - MOST_TOLD;
  return more > 0
    ? `${listed(names.slice(0, MOST_TOLD))} and ${counted(more, 'more', 'more')}`
    : listed(names);
}
