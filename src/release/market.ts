import { poolsOf, sourcesOf } from './sources';
import type { ProblemDemand, ReleaseProblem } from './types';

/** Below this, cartons are rounding. */
const NOTHING = 1e-9;

/** One demand, ready for the inner loop. */
interface Buyer {
  readonly demand: number;
  readonly first: number;
  readonly last: number;
  readonly cartons: Float64Array;
  /** Price and shortage saved, less what processing would have brought: what a sold carton is worth more. */
  readonly worth: number;
  /** Weeks a carton may wait before it costs more than the buyer brings, or may wait no longer. */
  readonly patience: number;
  /** Products it may be filled from, that with the fewest other uses first. */
  readonly products: Int32Array;
  /** Last week in which each may be sold to it. */
  readonly until: Int32Array;
  /** Place of each among the demand's sources. */
  readonly sources: Int32Array;
}

/** The demand side as flat arrays. */
export interface Market {
  readonly weeks: number;
  readonly wait: number;
  readonly costOfWaiting: number;
  readonly processingPrice: number;
  /** Products in groups that are sold apart from each other. */
  readonly pools: readonly (readonly number[])[];
  /** The pool of each product. */
  readonly poolOf: Int32Array;
  /** Buyers of each pool, the best payer first. */
  readonly buyers: readonly (readonly Buyer[])[];
  /** Pools for which the serving order matters: two buyers want them in the same weeks. */
  readonly contested: readonly boolean[];
  /** What it costs to deliver nothing at all. */
  readonly shortageOfAll: number;
}

/** Where `sellPool` writes what it sold; absent while only the value is wanted. */
export interface Sales {
  /** `sold[demand][week]` */
  readonly sold: readonly Float64Array[];
  /** `soldFrom[demand][source][week]`, for demands that name their sources. */
  readonly soldFrom: readonly (readonly Float64Array[])[];
}

export function marketOf(problem: ReleaseProblem): Market {
  const { processingPrice, weeks } = problem;
  const pools = poolsOf(problem);
  const poolOf = new Int32Array(problem.products.length);
  pools.forEach((products, pool) => {
    for (const product of products) poolOf[product] = pool;
  });
  const buyers: Buyer[][] = pools.map(() => []);
  const uses = usesOf(problem);
  let shortageOfAll = 0;
  problem.demands.forEach((one, demand) => {
    const cartons = Float64Array.from(one.cartons);
    const first = cartons.findIndex((wanted) => wanted > 0);
    if (first < 0) return;
    shortageOfAll += one.priceOfShortage * cartons.reduce((sum, wanted) => sum + wanted, 0);
    const last = cartons.findLastIndex((wanted) => wanted > 0);
    const worth = one.price + one.priceOfShortage - processingPrice;
    if (worth <= 0) return;
    const patience = patienceOf(problem, worth);
    const into = buyers[poolOf[sourcesOf(problem, one)[0]?.product ?? one.product] ?? 0];
    into?.push({ demand, first, last, cartons, worth, patience, ...sourceArrays(problem, one, uses) });
  });
  for (const list of buyers) list.sort((a, b) => b.worth - a.worth || a.demand - b.demand);
  return {
    weeks,
    wait: problem.packedWaitWeeks,
    costOfWaiting: problem.costOfWaiting,
    processingPrice,
    pools,
    poolOf,
    buyers,
    contested: buyers.map((list) =>
      list.some((one, at) =>
        list.some((other, index) => index < at && one.first <= other.last && other.first <= one.last),
      ),
    ),
    shortageOfAll,
  };
}

/** Weeks of sale that each product has, all demands together. */
function usesOf(problem: ReleaseProblem): Float64Array {
  const uses = new Float64Array(problem.products.length);
  for (const demand of problem.demands)
    for (const { product, until } of sourcesOf(problem, demand))
      uses[product] = (uses[product] ?? 0) + until + 1;
  return uses;
}

function sourceArrays(
  problem: ReleaseProblem,
  demand: ProblemDemand,
  uses: Float64Array,
): Pick<Buyer, 'products' | 'until' | 'sources'> {
  const sources = sourcesOf(problem, demand).map((one, source) => ({ ...one, source }));
  sources.sort((a, b) => (uses[a.product] ?? 0) - (uses[b.product] ?? 0) || a.product - b.product);
  return {
    products: Int32Array.from(sources, ({ product }) => product),
    until: Int32Array.from(sources, ({ until }) => until),
    sources: Int32Array.from(sources, ({ source }) => source),
  };
}

function patienceOf({ costOfWaiting, packedWaitWeeks }: ReleaseProblem, worth: number): number {
  if (costOfWaiting <= 0) return packedWaitWeeks;
  return Math.min(packedWaitWeeks, Math.ceil(worth / costOfWaiting) - 1);
}

/** The order in which buyers are served. */
export type ServingOrder = 'best payer first' | 'week by week';

/**
 * What the cartons of one pool bring, in money, over processing them all. Each sale takes the oldest cartons that
 * have not waited too long, and is made only where it brings more than processing. The best payer is served first,
 * through all weeks, or each week for itself, the best payer of the week first: the former keeps scarce cartons for
 * whoever pays most, the latter wastes none. A rule, not an optimum; the linear program improves on it.
 *
 * `supply` holds the cartons packed of each product by week; the pool's are used up: what stays was not sold.
 */
export function sellPool(
  market: Market,
  pool: number,
  order: ServingOrder,
  supply: readonly Float64Array[],
  sales?: Sales,
): number {
  const buyers = market.buyers[pool] ?? NO_BUYERS;
  let gain = 0;
  if (order === 'best payer first') {
    for (const buyer of buyers) gain += sellWeeks(market, buyer, buyer.first, buyer.last, supply, sales);
  } else {
    for (let week = 0; week < market.weeks; week++) {
      for (const buyer of buyers) gain += sellWeeks(market, buyer, week, week, supply, sales);
    }
  }
  return gain;
}

/** The order that brings more for the given cartons, and what it brings; `supply` is left as it was. */
export function betterOrder(
  market: Market,
  pool: number,
  supply: readonly Float64Array[],
  scratch: readonly Float64Array[],
): { readonly order: ServingOrder; readonly gain: number } {
  copyPool(market, pool, supply, scratch);
  const first = sellPool(market, pool, 'best payer first', scratch);
  if (!market.contested[pool]) return { order: 'best payer first', gain: first };
  copyPool(market, pool, supply, scratch);
  const weekly = sellPool(market, pool, 'week by week', scratch);
  return weekly > first
    ? { order: 'week by week', gain: weekly }
    : { order: 'best payer first', gain: first };
}

function copyPool(
  { pools }: Market,
  pool: number,
  from: readonly Float64Array[],
  into: readonly Float64Array[],
): void {
  const products = pools[pool] as readonly number[];
  for (let index = 0; index < products.length; index++) {
    const product = products[index] as number;
    (into[product] as Float64Array).set(from[product] as Float64Array);
  }
}

const NO_BUYERS: readonly Buyer[] = [];

function sellWeeks(
  market: Market,
  buyer: Buyer,
  first: number,
  last: number,
  supply: readonly Float64Array[],
  sales: Sales | undefined,
): number {
  return buyer.products.length === 1
    ? sellFromOne(market, buyer, first, last, supply, sales)
    : sellFromSeveral(market, buyer, first, last, supply, sales);
}

/** The usual case, in the innermost loop of the search. */
function sellFromOne(
  { costOfWaiting }: Market,
  buyer: Buyer,
  first: number,
  last: number,
  supply: readonly Float64Array[],
  sales: Sales | undefined,
): number {
  const { cartons: wanted, patience, worth } = buyer;
  const cartons = supply[buyer.products[0] as number] as Float64Array;
  const end = Math.min(last, buyer.until[0] as number);
  let gain = 0;
  for (let week = first; week <= end; week++) {
    let left = wanted[week] as number;
    if (left <= 0) continue;
    for (let packed = Math.max(0, week - patience); packed <= week; packed++) {
      const there = cartons[packed] as number;
      if (there <= NOTHING) continue;
      const taken = Math.min(there, left);
      cartons[packed] = there - taken;
      left -= taken;
      gain += taken * (worth - costOfWaiting * (week - packed));
      if (sales) note(sales, buyer, 0, week, taken);
      if (left <= NOTHING) break;
    }
  }
  return gain;
}

/** The oldest cartons first; of one week's, those with the fewest other uses. */
function sellFromSeveral(
  { costOfWaiting }: Market,
  buyer: Buyer,
  first: number,
  last: number,
  supply: readonly Float64Array[],
  sales: Sales | undefined,
): number {
  const { products, until } = buyer;
  let gain = 0;
  for (let week = first; week <= last; week++) {
    let left = buyer.cartons[week] as number;
    for (let packed = Math.max(0, week - buyer.patience); packed <= week && left > NOTHING; packed++) {
      for (let index = 0; index < products.length && left > NOTHING; index++) {
        const cartons = supply[products[index] as number] as Float64Array;
        const there = cartons[packed] as number;
        if (there <= NOTHING || (until[index] as number) < week) continue;
        const taken = Math.min(there, left);
        cartons[packed] = there - taken;
        left -= taken;
        gain += taken * (buyer.worth - costOfWaiting * (week - packed));
        if (sales) note(sales, buyer, index, week, taken);
      }
    }
  }
  return gain;
}

function note({ sold, soldFrom }: Sales, buyer: Buyer, index: number, week: number, taken: number): void {
  for (const row of [sold[buyer.demand], soldFrom[buyer.demand]?.[buyer.sources[index] as number]])
    if (row) row[week] = (row[week] as number) + taken;
}
