import type { ReleaseProblem } from './types';

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
}

/** The demand side as flat arrays. */
export interface Market {
  readonly weeks: number;
  readonly wait: number;
  readonly costOfWaiting: number;
  readonly processingPrice: number;
  /** Buyers of each product, the best payer first. */
  readonly buyers: readonly (readonly Buyer[])[];
  /** Products for which the serving order matters: two buyers want them in the same weeks. */
  readonly contested: readonly boolean[];
  /** What it costs to deliver nothing at all. */
  readonly shortageOfAll: number;
}

/** Where `sellProduct` writes what it sold; absent while only the value is wanted. */
export interface Sales {
  /** `sold[demand][week]` */
  readonly sold: readonly Float64Array[];
  /** What is left of each week's cartons, to be processed. */
  readonly left: Float64Array;
}

export function marketOf(problem: ReleaseProblem): Market {
  const { processingPrice, weeks } = problem;
  const buyers: Buyer[][] = problem.products.map(() => []);
  let shortageOfAll = 0;
  problem.demands.forEach((one, demand) => {
    const cartons = Float64Array.from(one.cartons);
    const first = cartons.findIndex((wanted) => wanted > 0);
    if (first < 0) return;
    shortageOfAll += one.priceOfShortage * cartons.reduce((sum, wanted) => sum + wanted, 0);
    const last = cartons.findLastIndex((wanted) => wanted > 0);
    const worth = one.price + one.priceOfShortage - processingPrice;
    if (worth > 0) {
      const patience = patienceOf(problem, worth);
      buyers[one.product]?.push({ demand, first, last, cartons, worth, patience });
    }
  });
  for (const list of buyers) list.sort((a, b) => b.worth - a.worth || a.demand - b.demand);
  return {
    weeks,
    wait: problem.packedWaitWeeks,
    costOfWaiting: problem.costOfWaiting,
    processingPrice,
    buyers,
    contested: buyers.map((list) =>
      list.some((one, at) =>
        list.some((other, index) => index < at && one.first <= other.last && other.first <= one.last),
      ),
    ),
    shortageOfAll,
  };
}

function patienceOf({ costOfWaiting, packedWaitWeeks }: ReleaseProblem, worth: number): number {
  if (costOfWaiting <= 0) return packedWaitWeeks;
  return Math.min(packedWaitWeeks, Math.ceil(worth / costOfWaiting) - 1);
}

/** The order in which buyers are served. */
export type ServingOrder = 'best payer first' | 'week by week';

/**
 * What the cartons of one product bring, in money, over processing them all. Each sale takes the oldest cartons that
 * have not waited too long, and is made only where it brings more than processing. The best payer is served first,
 * through all weeks, or each week for itself, the best payer of the week first: the former keeps scarce cartons for
 * whoever pays most, the latter wastes none. A rule, not an optimum; the linear program improves on it.
 *
 * `supply` holds the cartons packed in each week and is used up: what stays in it was not sold.
 */
export function sellProduct(
  market: Market,
  product: number,
  order: ServingOrder,
  supply: Float64Array,
  sales?: Sales,
): number {
  const buyers = market.buyers[product] ?? NO_BUYERS;
  let gain = 0;
  if (order === 'best payer first') {
    for (const buyer of buyers) {
      for (let week = buyer.first; week <= buyer.last; week++)
        gain += sellWeek(market, buyer, week, supply, sales);
    }
  } else {
    for (let week = 0; week < market.weeks; week++) {
      for (const buyer of buyers) gain += sellWeek(market, buyer, week, supply, sales);
    }
  }
  sales?.left.set(supply);
  return gain;
}

/** The order that brings more for the given cartons, and what it brings; `supply` is left as it was. */
export function betterOrder(
  market: Market,
  product: number,
  supply: Float64Array,
  scratch: Float64Array,
): { readonly order: ServingOrder; readonly gain: number } {
  scratch.set(supply);
  const first = sellProduct(market, product, 'best payer first', scratch);
  if (!market.contested[product]) return { order: 'best payer first', gain: first };
  scratch.set(supply);
  const weekly = sellProduct(market, product, 'week by week', scratch);
  return weekly > first
    ? { order: 'week by week', gain: weekly }
    : { order: 'best payer first', gain: first };
}

const NO_BUYERS: readonly Buyer[] = [];

function sellWeek(
  market: Market,
  buyer: Buyer,
  week: number,
  supply: Float64Array,
  sales: Sales | undefined,
): number {
  let wanted = buyer.cartons[week] as number;
  if (wanted <= 0) return 0;
  let gain = 0;
  for (let packed = Math.max(0, week - buyer.patience); packed <= week; packed++) {
    const there = supply[packed] as number;
    if (there <= NOTHING) continue;
    const taken = Math.min(there, wanted);
    supply[packed] = there - taken;
    wanted -= taken;
    gain += taken * (buyer.worth - market.costOfWaiting * (week - packed));
    if (sales) {
      const sold = sales.sold[buyer.demand] as Float64Array;
      sold[week] = (sold[week] as number) + taken;
    }
    if (wanted <= NOTHING) break;
  }
  return gain;
}
