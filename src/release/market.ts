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
}

/** The demand side as flat arrays. */
export interface Market {
  readonly weeks: number;
  readonly wait: number;
  readonly costOfWaiting: number;
  readonly processingPrice: number;
  /** Buyers of each product, the best payer first. */
  readonly buyers: readonly (readonly Buyer[])[];
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
    buyers[one.product]?.push({ demand, first, last, cartons, worth });
  });
  for (const list of buyers) list.sort((a, b) => b.worth - a.worth || a.demand - b.demand);
  return {
    weeks,
    wait: problem.packedWaitWeeks,
    costOfWaiting: problem.costOfWaiting,
    processingPrice,
    buyers,
    shortageOfAll,
  };
}

/**
 * What the cartons of one product bring, in money, over processing them all: the best payer first, each week from the
 * oldest cartons that have not waited too long, and a carton sold only where it brings more than processing. A rule,
 * not an optimum; the linear program improves on it.
 *
 * `supply` holds the cartons packed in each week and is used up: what stays in it was not sold.
 */
export function sellProduct(market: Market, product: number, supply: Float64Array, sales?: Sales): number {
  const { wait, costOfWaiting } = market;
  let gain = 0;
  for (const buyer of market.buyers[product] ?? []) {
    const { first, last, cartons, worth } = buyer;
    if (worth <= 0) break;
    // Cartons that would wait longer than this cost more than the buyer brings.
    const patience = costOfWaiting > 0 ? Math.min(wait, Math.ceil(worth / costOfWaiting) - 1) : wait;
    let oldest = Math.max(0, first - patience);
    for (let week = first; week <= last; week++) {
      let wanted = cartons[week] as number;
      if (wanted <= 0) continue;
      if (oldest < week - patience) oldest = week - patience;
      while (oldest <= week) {
        const there = supply[oldest] as number;
        if (there <= NOTHING) {
          oldest++;
          continue;
        }
        const taken = Math.min(there, wanted);
        supply[oldest] = there - taken;
        wanted -= taken;
        gain += taken * (worth - costOfWaiting * (week - oldest));
        if (sales) {
          const sold = sales.sold[buyer.demand] as Float64Array;
          sold[week] = (sold[week] as number) + taken;
        }
        if (wanted <= NOTHING) break;
      }
    }
  }
  sales?.left.set(supply);
  return gain;
}
