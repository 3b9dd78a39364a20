import { worthUnpacked } from './from-field';
import { openingCost } from './opening-cost';
import { poolsOf, sourcesOf } from './sources';
import type { ProblemRoom, ReleaseProblem } from './types';

/**
 * The season in flat arrays, so that thousands of prices can be tried: rooms have ways (weeks to open in), a way has
 * parts (one for each pool of products the room gives), and a part has slots (a demand in a week it can be sold in).
 * Everything of `one` begins at its `start` and ends where the next one's begins.
 */
export interface PricedSeason {
  readonly weeks: number;
  readonly costOfWaiting: number;
  readonly processingPrice: number;
  /** Money that does not depend on any choice. */
  readonly constant: number;
  readonly rooms: number;
  /** What a room brings that stays closed; -Infinity where it must open. */
  readonly closed: Float64Array;
  readonly firstWay: Int32Array;
  readonly wayWeek: Int32Array;
  /** Weeks of its emptying within the season. */
  readonly wayCount: Int32Array;
  readonly wayBrings: Float64Array;
  /** Bins that can be packed in a way. */
  readonly wayBins: Float64Array;
  /** Week whose last days it is packed on, or -1. */
  readonly wayLast: Int32Array;
  /** 1 where it counts among the rooms open at once. */
  readonly wayStands: Uint8Array;
  /** 1 where it is packed whole, 0 where some may be left. */
  readonly wayWhole: Uint8Array;
  /** Money that a bin brings where it is not packed: a cost of packing it. */
  readonly wayUnpacked: Float64Array;
  readonly firstPart: Int32Array;
  /** A product of the pool, by which to know it. */
  readonly partProduct: Int32Array;
  /** Share of the packing price that the pool bears. */
  readonly partBears: Float64Array;
  /** Where the cartons a bin, one for each week of emptying, begin. */
  readonly partYield: Int32Array;
  readonly yields: Float64Array;
  readonly firstSlot: Int32Array;
  /** Place among the prices of `wanted`. */
  readonly slotPlace: Int32Array;
  readonly slotWeek: Int32Array;
  /** Weeks of the emptying, counted from its first, whose cartons can be sold there: from and to. */
  readonly slotFrom: Int32Array;
  readonly slotTo: Int32Array;
  readonly slotCartons: Float64Array;
  readonly slotPays: Float64Array;
}

/** Lists that grow while the season is read. */
class Growing {
  readonly closed: number[] = [];
  readonly firstWay: number[] = [0];
  readonly way: {
    week: number[];
    count: number[];
    brings: number[];
    bins: number[];
    last: number[];
    stands: number[];
    unpacked: number[];
  } = {
    week: [],
    count: [],
    brings: [],
    bins: [],
    last: [],
    stands: [],
    unpacked: [],
  };
  readonly firstPart: number[] = [0];
  readonly product: number[] = [];
  readonly bears: number[] = [];
  readonly partYield: number[] = [];
  readonly yields: number[] = [];
  readonly firstSlot: number[] = [0];
  readonly slot: {
    place: number[];
    week: number[];
    from: number[];
    to: number[];
    cartons: number[];
    pays: number[];
  } = {
    place: [],
    week: [],
    from: [],
    to: [],
    cartons: [],
    pays: [],
  };
}

export function pricedSeason(problem: ReleaseProblem, unmet: readonly number[] = []): PricedSeason {
  const into = new Growing();
  const pools = poolsOf(problem).map((products) => poolOf(problem, products));
  let constant = 0;
  for (const demand of problem.demands)
    constant -= demand.priceOfShortage * demand.cartons.reduce((sum, cartons) => sum + cartons, 0);
  problem.rooms.forEach((room, index) => {
    constant += addRoom(into, problem, room, unmet.includes(index), pools);
  });
  const { way, slot } = into;
  return {
    weeks: problem.weeks,
    costOfWaiting: problem.costOfWaiting,
    processingPrice: problem.processingPrice,
    constant,
    rooms: problem.rooms.length,
    closed: Float64Array.from(into.closed),
    firstWay: Int32Array.from(into.firstWay),
    wayWeek: Int32Array.from(way.week),
    wayCount: Int32Array.from(way.count),
    wayBrings: Float64Array.from(way.brings),
    wayBins: Float64Array.from(way.bins),
    wayLast: Int32Array.from(way.last),
    wayStands: Uint8Array.from(way.stands),
    wayWhole: Uint8Array.from(way.stands),
    wayUnpacked: Float64Array.from(way.unpacked),
    firstPart: Int32Array.from(into.firstPart),
    partProduct: Int32Array.from(into.product),
    partBears: Float64Array.from(into.bears),
    partYield: Int32Array.from(into.partYield),
    yields: Float64Array.from(into.yields),
    firstSlot: Int32Array.from(into.firstSlot),
    slotPlace: Int32Array.from(slot.place),
    slotWeek: Int32Array.from(slot.week),
    slotFrom: Int32Array.from(slot.from),
    slotTo: Int32Array.from(slot.to),
    slotCartons: Float64Array.from(slot.cartons),
    slotPays: Float64Array.from(slot.pays),
  };
}

/** Products that share demands, and for each demand which of them it takes in each week. */
interface Pool {
  readonly products: readonly number[];
  readonly demands: readonly { readonly index: number; readonly takes: readonly (readonly number[])[] }[];
}

function poolOf(problem: ReleaseProblem, products: readonly number[]): Pool {
  const demands = problem.demands.flatMap((demand, index) => {
    const sources = sourcesOf(problem, demand).filter(({ product }) => products.includes(product));
    if (sources.length === 0) return [];
    const takes = demand.cartons.map((wanted, week) =>
      wanted > 0 ? sources.filter(({ until }) => week <= until).map(({ product }) => product) : [],
    );
    return [{ index, takes }];
  });
  return { products, demands };
}

/** Adds a room; returns the money that it brings whatever is chosen. */
function addRoom(
  into: Growing,
  problem: ReleaseProblem,
  room: ProblemRoom,
  isUnmet: boolean,
  pools: readonly Pool[],
): number {
  const { fromField, pinned } = room;
  const unpacked = worthUnpacked(problem, room);
  const first = pinned ?? room.earliest;
  const last = fromField ? first : (pinned ?? room.latest);
  const given = pools.filter(({ products }) =>
    products.some((product) => room.cartonsABin.some((week) => (week[product] ?? 0) > 0)),
  );
  into.closed.push(pinned !== null && !isUnmet ? Number.NEGATIVE_INFINITY : -openingCost(room, null));
  for (let week = first; week <= last && (!isUnmet || fromField); week++) {
    const count = Math.min(room.weeksToEmpty, problem.weeks - week);
    if (week < 0 || count < 1) continue;
    const can = fromField
      ? Math.min(
          room.bins,
          fromField.mostBins.reduce((sum, bins) => sum + bins, 0),
        )
      : room.bins;
    into.way.week.push(week);
    into.way.count.push(count);
    into.way.brings.push(fromField ? 0 : -openingCost(room, week));
    into.way.bins.push(can);
    const end = week + room.weeksToEmpty - 1;
    into.way.last.push(!fromField && problem.lastWeekBins && end < problem.weeks ? end : -1);
    into.way.stands.push(fromField ? 0 : 1);
    into.way.unpacked.push(unpacked);
    const bears = bearing(problem, room, given, week, count);
    given.forEach((pool, at) => {
      addPart(into, problem, room, pool, week, count, can, bears[at] ?? 0);
    });
    into.firstPart.push(into.bears.length);
  }
  into.firstWay.push(into.way.week.length);
  return fromField ? unpacked * room.bins : 0;
}

/** What each pool of a room bears of the price of packing it: by the money its cartons bring where all are sold. */
function bearing(
  problem: ReleaseProblem,
  room: ProblemRoom,
  pools: readonly Pool[],
  week: number,
  count: number,
): number[] {
  const money = pools.map(({ products, demands }) => {
    const best = Math.max(
      problem.processingPrice,
      ...demands.map(({ index }) => problem.demands[index]?.price ?? 0),
    );
    let cartons = 0;
    for (let since = 0; since < count; since++) cartons += yieldOf(room, week + since, products);
    return best * cartons;
  });
  const total = money.reduce((sum, one) => sum + one, 0);
  return money.map((one) => (total > 0 ? one / total : 1 / pools.length));
}

function yieldOf(room: ProblemRoom, week: number, products: readonly number[]): number {
  return products.reduce((sum, product) => sum + (room.cartonsABin[week]?.[product] ?? 0), 0);
}

function addPart(
  into: Growing,
  problem: ReleaseProblem,
  room: ProblemRoom,
  { products, demands }: Pool,
  week: number,
  count: number,
  bins: number,
  bears: number,
): void {
  into.product.push(products[0] ?? 0);
  into.bears.push(bears);
  into.partYield.push(into.yields.length);
  for (let since = 0; since < count; since++) into.yields.push(yieldOf(room, week + since, products));
  const wait = problem.packedWaitWeeks;
  for (const { index, takes } of demands) {
    const demand = problem.demands[index];
    if (!demand) continue;
    for (let sold = week; sold < Math.min(problem.weeks, week + count + wait); sold++) {
      const accepted = takes[sold] ?? [];
      let [from, to, most] = [count, -1, 0];
      for (let since = Math.max(0, sold - wait - week); since < count && week + since <= sold; since++) {
        const cartons = accepted.length === 0 ? 0 : yieldOf(room, week + since, accepted);
        if (cartons <= 0) continue;
        from = Math.min(from, since);
        to = since;
        most = Math.max(most, cartons);
      }
      if (to < 0) continue;
      into.slot.place.push(index * problem.weeks + sold);
      into.slot.week.push(sold);
      into.slot.from.push(from);
      into.slot.to.push(to);
      into.slot.cartons.push(Math.min(demand.cartons[sold] ?? 0, bins * most));
      into.slot.pays.push(demand.price + demand.priceOfShortage);
    }
  }
  into.firstSlot.push(into.slot.place.length);
}
