import type { ProblemDemand } from './types';

/**
 * What opening a room past its best-before week counts against it. These two are planning weights of this tool, not
 * trade figures: they make the schedule prefer fruit at its best where little else is lost, and let a good price win
 * over a week of delay. One week late counts one per cent of the room's worth, four weeks eight.
 */
const SHARE_AFTER_ONE_WEEK = 0.01;
const GROWTH = 1.5;

/** Risk of soft fruit for opening in each week, in money: 0 up to `bestBefore`, then worth x 0.01 x weeks^1.5. */
export function riskCost(worth: number, bestBefore: number, weeks: number): number[] {
  return Array.from(
    { length: weeks },
    (_, week) => worth * SHARE_AFTER_ONE_WEEK * Math.max(0, week - bestBefore) ** GROWTH,
  );
}

/**
 * What a room's fruit would bring at the season's mean price of each product, over all demands that may take it. A product that nobody wants
 * counts as processed.
 */
export function roomWorth(
  bins: number,
  cartonsABin: readonly number[],
  demands: readonly ProblemDemand[],
  processingPrice: number,
): number {
  return cartonsABin.reduce(
    (sum, cartons, product) => sum + bins * cartons * meanPrice(demands, product, processingPrice),
    0,
  );
}

function meanPrice(demands: readonly ProblemDemand[], product: number, otherwise: number): number {
  let [money, cartons] = [0, 0];
  for (const demand of demands) {
    if (!mayTake(demand, product)) continue;
    const wanted = demand.cartons.reduce((sum, week) => sum + week, 0);
    money += wanted * demand.price;
    cartons += wanted;
  }
  return cartons > 0 ? money / cartons : otherwise;
}

function mayTake({ product, from }: ProblemDemand, one: number): boolean {
  return from ? from.some((source) => source.product === one) : product === one;
}
