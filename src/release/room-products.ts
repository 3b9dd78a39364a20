import { type Day, firstDayOfWeek, type Week } from '../plan/dates';
import type { Lot, Packing } from '../plan/model';
import type { Steps } from '../plan/steps';
import type { WantedDemand } from './demand-wanted';
import type { ProblemDemand, ReleaseProblem } from './types';

type Product = ReleaseProblem['products'][number];

/** Fruit that is packed together: a room's, or a lot's from the field. */
export interface FruitSource {
  /** As the problem's room names it. */
  readonly id: string;
  /** Markets it is kept for; none named means all. */
  readonly forMarkets: readonly string[];
  /** First and last week of the season in which its cartons can be sold. */
  readonly first: number;
  readonly last: number;
  readonly lots: readonly {
    readonly lot: Lot;
    /** Newtons; undefined where it is not known. */
    firmnessOn(day: Day): number | undefined;
  }[];
}

interface Season {
  readonly firstWeek: Week;
  readonly weeks: number;
}

/** A product and what it may be sold to: the last week for each wanted demand of its variety and class, -1 for never. */
interface Kind extends Product {
  readonly until: ReadonlyMap<string, number>;
}

/** The products of a plan, what each lot gives, and the demands with what may fill them. */
export interface RoomProducts {
  readonly products: readonly Product[];
  readonly demands: readonly ProblemDemand[];
  /** The product that a lot of a source packs into, in a pack class. */
  productOf(source: string, lot: string, packClass: string): number | undefined;
}

/**
 * Fruit of a variety and class is one product as long as all of it may go to the same demands. It may not where its
 * room is kept for other markets, or where its firmness falls below what the buyer accepts: from then on, by the
 * firmness expected (the median) at the end of the week of sale. Fruit whose firmness is not known is not refused.
 */
export function* roomProductsSteps(
  fruit: readonly FruitSource[],
  wanted: readonly WantedDemand[],
  packing: Packing,
  season: Season,
): Steps<RoomProducts> {
  const wantedOf = byProduct(wanted);
  const kinds = new Map<string, Kind & { readonly index: number }>();
  const add = (variety: string, packClass: string, until: ReadonlyMap<string, number>) => {
    const key = JSON.stringify([variety, packClass, ...until]);
    const index = kinds.get(key)?.index ?? kinds.size;
    kinds.set(key, { variety, packClass, until, index });
    return index;
  };
  const byLot = new Map<string, number>();
  for (const source of fruit) {
    yield;
    for (const lot of source.lots) {
      const variety = lot.lot.variety?.value ?? '';
      for (const packClass of packing.packout.get(variety)?.shares.keys() ?? []) {
        const until = lastSales(source, lot, wantedOf.get(productKey(variety, packClass)) ?? [], season);
        byLot.set(lotKey(source.id, lot.lot.id, packClass), add(variety, packClass, until));
      }
    }
  }
  for (const demand of wanted) add(demand.variety, demand.packClass, new Map());
  const all = [...kinds.values()];
  return {
    products: all.map(({ variety, packClass }) => ({ variety, packClass })),
    demands: wanted.map((demand) => problemDemand(demand, all, season.weeks)),
    productOf: (source, lot, packClass) => byLot.get(lotKey(source, lot, packClass)),
  };
}

function lotKey(source: string, lot: string, packClass: string): string {
  return JSON.stringify([source, lot, packClass]);
}

function productKey(variety: string, packClass: string): string {
  return JSON.stringify([variety, packClass]);
}

/** Demands of each variety and class, in their order. */
function byProduct(wanted: readonly WantedDemand[]): ReadonlyMap<string, readonly WantedDemand[]> {
  const demands = new Map<string, WantedDemand[]>();
  for (const demand of wanted) {
    const key = productKey(demand.variety, demand.packClass);
    const known = demands.get(key);
    if (known) known.push(demand);
    else demands.set(key, [demand]);
  }
  return demands;
}

/** Of a lot's variety and class the demands that may not take its fruit in every week, with the last week they may. */
function lastSales(
  source: FruitSource,
  lot: FruitSource['lots'][number],
  wanted: readonly WantedDemand[],
  season: Season,
): Map<string, number> {
  const until = new Map<string, number>();
  for (const demand of wanted) {
    const last = mayGoTo(source, demand) ? lastFirmEnough(lot, demand, source, season) : -1;
    if (last !== undefined) until.set(demand.id, last);
  }
  return until;
}

function mayGoTo({ forMarkets }: FruitSource, { market }: WantedDemand): boolean {
  return forMarkets.length === 0 || forMarkets.includes(market);
}

/** Undefined where the lot is firm enough in every week in which it can be sold to the demand. */
function lastFirmEnough(
  lot: FruitSource['lots'][number],
  { leastFirmness, cartons }: WantedDemand,
  reach: FruitSource,
  { firstWeek }: Season,
): number | undefined {
  if (leastFirmness === undefined) return undefined;
  const first = Math.max(
    reach.first,
    cartons.findIndex((one) => one > 0),
  );
  const last = Math.min(
    reach.last,
    cartons.findLastIndex((one) => one > 0),
  );
  for (let week = first; week <= last; week++) {
    const firmness = lot.firmnessOn(firstDayOfWeek(firstWeek + week) + 6);
    if (firmness !== undefined && firmness < leastFirmness) return week > first ? week - 1 : -1;
  }
  return undefined;
}

/** A demand with what may fill it; only where that is not simply all of its variety and class. */
function problemDemand(
  { variety, packClass, leastFirmness: _, ...demand }: WantedDemand,
  kinds: readonly (Kind & { readonly index: number })[],
  weeks: number,
): ProblemDemand {
  const own = kinds.filter((kind) => kind.variety === variety && kind.packClass === packClass);
  const plain = own.find(({ until }) => until.size === 0)?.index ?? -1;
  if (own.length < 2) return { ...demand, product: plain };
  const from = own.flatMap(({ index, until }) => {
    const last = until.get(demand.id) ?? weeks - 1;
    return last < 0 ? [] : [{ product: index, until: last }];
  });
  return { ...demand, product: plain, from };
}
