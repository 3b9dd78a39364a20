import { noPrices, pricesIn } from './shared-prices';
import { poolsOf, sourcesOf } from './sources';
import type { ProblemRoom, ReleaseProblem } from './types';

/** Not every place is wanted by all: measured on made-up seasons of 60 to 500 rooms, supply short and long. */
const SCARCE = 0.7;

/**
 * Prices to start an ascent from: of each place in a demand what it pays over the carton that just finds a place, were
 * all that the rooms give there all season long, and somewhat less. Where there is more than is wanted that carton is
 * processed.
 */
export function marketPrices(problem: ReleaseProblem): Float64Array {
  const flat = noPrices(problem);
  const { wanted } = pricesIn(flat, problem.weeks);
  for (const pool of poolsOf(problem)) {
    const demands = problem.demands.flatMap((demand, index) => {
      const first = sourcesOf(problem, demand)[0]?.product ?? demand.product;
      if (!pool.includes(first)) return [];
      const cartons = demand.cartons.reduce((sum, one) => sum + one, 0);
      return [{ index, cartons, pays: demand.price + demand.priceOfShortage }];
    });
    const last = lastToSell(problem, pool, demands);
    for (const { index, pays } of demands)
      for (let week = 0; week < problem.weeks; week++)
        wanted[index * problem.weeks + week] = SCARCE * Math.max(0, pays - last);
  }
  return flat;
}

/** What the last carton of a pool brings, the best payers served first. */
function lastToSell(
  problem: ReleaseProblem,
  pool: readonly number[],
  demands: readonly { readonly cartons: number; readonly pays: number }[],
): number {
  let left = problem.rooms.reduce((sum, room) => sum + cartonsOf(problem, room, pool), 0);
  for (const { cartons, pays } of [...demands].sort((a, b) => b.pays - a.pays)) {
    left -= cartons;
    if (left < 0) return Math.max(pays, problem.processingPrice);
  }
  return problem.processingPrice;
}

/** Cartons of a pool that a room gives half-way through its window. */
function cartonsOf(problem: ReleaseProblem, room: ProblemRoom, pool: readonly number[]): number {
  const middle = room.pinned ?? Math.round((room.earliest + room.latest) / 2);
  const week = room.cartonsABin[Math.max(0, Math.min(problem.weeks - 1, middle))] ?? [];
  return room.bins * pool.reduce((sum, product) => sum + (week[product] ?? 0), 0);
}
