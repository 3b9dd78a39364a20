import { fruitData } from '../fruit/data';
import type { FruitData, Variety } from '../fruit/types';
import type { Day } from '../plan/dates';
import type { Fill, Lot, Plan } from '../plan/model';
import { begunRooms, whyNoMore } from './begun-rooms';
import { byId, freeRooms } from './free-rooms';
import { growerWish } from './growers';
import { keepsIn, termIndex } from './keeping';
import { regimeChoices, regimesFor } from './regimes';
import type { FillProblem, LeftOut, LotToPlace, PinnedFill } from './types';
import { mostFillingDays, mostWaitingDays } from './weights';

export interface FillProblemOptions {
  /** Fills of the plan with free places may take more bins: those of which `whyNoMore` says nothing. */
  readonly topUp?: boolean | undefined;
  /**
   * A room sealed on this day or before, or whose filling is over by it, takes no more, and what would place bins left
   * over asks for nothing before it. Where it is not given, no day counts as past.
   */
  readonly today?: Day | undefined;
}

/**
 * The fill problem of a plan: its free rooms, and the bins its fills leave over, lots packed at harvest aside. What the plan's fills hold stays where
 * it is; the rooms they use are not offered, unless they may be topped up. What cannot be planned with is in `leftOut`,
 * with the reason; nothing throws.
 */
export function fillProblem(
  plan: Plan,
  fruit: FruitData = fruitData(plan),
  options: FillProblemOptions = {},
): FillProblem {
  const leftOut: LeftOut[] = [];
  const fills = [...plan.fills.values()].sort(byId);
  const open = lotsLeft(plan, fruit, fills, leftOut);
  const names = [...new Set(open.flatMap(({ regimes }) => regimes))].sort();
  const regimes = regimeChoices(names, fruit);
  const begun = options.topUp ? begunRooms(plan, fruit, fills, regimes, options.today) : new Map();
  const rooms = freeRooms(plan, fills, regimes, begun, leftOut);
  return {
    rooms,
    lots: open.map(({ lot, variety, bins, allBins, days }) => ({
      id: lot.id,
      variety: lot.variety?.value ?? variety.name,
      grower: lot.grower ?? '',
      apart: growerWish(plan, lot) === 'apart',
      together: growerWish(plan, lot) === 'together',
      arrivals: arrivalsOf(bins, days),
      bins,
      allBins,
      inFills: fills.filter((fill) => fill.lots.some((one) => one.lot.value === lot.id)).length,
      term: termIndex(lot, variety),
      keeps: keepsIn(plan, fruit, lot, variety, bins, regimes),
    })),
    regimes,
    pinned: fills.map((fill) => pinnedFill(plan, fill)),
    mostFillingDays,
    mostWaitingDays,
    leftOut,
    ...(options.today !== undefined && { today: options.today }),
    ...(options.topUp && { notToppedUp: notToppedUp(fills, options.today) }),
  };
}

function notToppedUp(fills: readonly Fill[], today: Day | undefined) {
  return fills.flatMap((fill) => {
    const reason = whyNoMore(fill, fills, today);
    return reason === undefined ? [] : [{ fill: fill.id, room: fill.room?.value ?? '', reason }];
  });
}

function pinnedFill(plan: Plan, fill: Fill): PinnedFill {
  const lots = fill.lots.flatMap(({ lot }) => plan.lots.get(lot.value) ?? []);
  const together = lots.filter((lot) => growerWish(plan, lot) === 'together');
  return {
    fill: fill.id,
    room: fill.room?.value ?? '',
    lots: fill.lots.map(({ lot, bins }) => ({ lot: lot.value, bins: bins.value })),
    together: [...new Set(together.map(({ grower }) => grower ?? ''))].sort(),
  };
}

function pinnedLots(fills: readonly Fill[]): Map<string, number> {
  const placed = new Map<string, number>();
  for (const { lot, bins } of fills.flatMap((fill) => fill.lots))
    placed.set(lot.value, (placed.get(lot.value) ?? 0) + bins.value);
  return placed;
}

interface OpenLot {
  readonly lot: Lot;
  readonly variety: Variety;
  readonly bins: number;
  readonly allBins: number;
  readonly days: { readonly first: Day; readonly last: Day };
  readonly regimes: readonly string[];
}

function lotsLeft(plan: Plan, fruit: FruitData, fills: readonly Fill[], leftOut: LeftOut[]): OpenLot[] {
  const placed = pinnedLots(fills);
  return [...plan.lots.values()].sort(byId).flatMap((lot) => {
    const allBins = (lot.receivedBins ?? lot.expectedBins)?.value ?? 0;
    const bins = Math.floor(allBins - (placed.get(lot.id) ?? 0));
    // What is packed at harvest is to go to no room.
    if (!(bins > 0) || lot.packedAtHarvest) return [];
    const variety = lot.variety && fruit.variety(lot.variety.value);
    const days = lot.picked?.value;
    const regimes = variety ? regimesFor(plan, fruit, variety) : [];
    const reason = whyNot(variety, days, regimes);
    if (!variety || !days || reason !== undefined) {
      leftOut.push({ what: lot.id, bins, reason: reason ?? '' });
      return [];
    }
    return [{ lot, variety, bins, allBins: bins + (placed.get(lot.id) ?? 0), days, regimes }];
  });
}

/** More days than any picking: a mistyped year must not make the tool count for hours. */
const MOST_PICKING_DAYS = 120;

function whyNot(
  variety: Variety | undefined,
  days: OpenLot['days'] | undefined,
  regimes: readonly string[],
): string | undefined {
  if (!variety) return 'its variety is not known';
  if (!days) return 'it has no picking days';
  if (days.last < days.first || days.last - days.first >= MOST_PICKING_DAYS)
    return 'its picking days are the wrong way round or too far apart to be meant';
  return regimes.length === 0 ? `no regime suits ${variety.name}` : undefined;
}

/** Whole bins, spread over the picking days so that no day differs from another by more than one. */
function arrivalsOf(bins: number, { first, last }: OpenLot['days']): LotToPlace['arrivals'] {
  const count = last - first + 1;
  return Array.from({ length: count }, (_, index) => ({
    day: first + index,
    bins: Math.round((bins * (index + 1)) / count) - Math.round((bins * index) / count),
  })).filter((arrival) => arrival.bins > 0);
}
