import { betterOrder, marketOf, type Sales, sellProduct } from './market';
import { openingCost } from './opening-cost';
import type { Found } from './search';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** The schedule that follows from opening weeks and bins packed, sales by rule. */
export function settledSchedule(problem: ReleaseProblem, found: Found): ReleaseSchedule {
  const market = marketOf(problem);
  const sold = problem.demands.map(() => new Float64Array(problem.weeks));
  const supply = cartonsPacked(problem, found.packed);
  const processed = supply.map((cartons, product) => {
    const sales: Sales = { sold, left: new Float64Array(problem.weeks) };
    const { order } = betterOrder(market, product, cartons, new Float64Array(problem.weeks));
    sellProduct(market, product, order, cartons.slice(), sales);
    return Array.from(sales.left, (left) => Math.max(0, left));
  });
  return valued(problem, {
    opens: openingWeeks(found.opens),
    packed: found.packed,
    sold: sold.map((row) => Array.from(row)),
    processed,
    value: 0,
  });
}

export function openingWeeks(opens: ArrayLike<number>): (number | null)[] {
  return Array.from(opens, (week) => (week < 0 ? null : week));
}

/** Cartons of each product that come from the packed bins, by week. */
export function cartonsPacked(
  problem: ReleaseProblem,
  packed: readonly (readonly number[])[],
): Float64Array[] {
  const cartons = problem.products.map(() => new Float64Array(problem.weeks));
  packed.forEach((row, room) => {
    row.forEach((bins, week) => {
      if (bins <= 0) return;
      problem.rooms[room]?.cartonsABin[week]?.forEach((aBin, product) => {
        const into = cartons[product];
        if (into) into[week] = (into[week] ?? 0) + bins * aBin;
      });
    });
  });
  return cartons;
}

/** The schedule with its value: sales + processing - shortage - waiting - risk - changes. */
export function valued(problem: ReleaseProblem, schedule: ReleaseSchedule): ReleaseSchedule {
  let value = 0;
  problem.demands.forEach((demand, index) => {
    demand.cartons.forEach((wanted, week) => {
      const sold = schedule.sold[index]?.[week] ?? 0;
      value += sold * demand.price - Math.max(0, wanted - sold) * demand.priceOfShortage;
    });
  });
  cartonsPacked(problem, schedule.packed).forEach((cartons, product) => {
    let waiting = 0;
    for (let week = 0; week < problem.weeks; week++) {
      const processed = schedule.processed[product]?.[week] ?? 0;
      value += processed * problem.processingPrice;
      waiting += (cartons[week] ?? 0) - processed;
      problem.demands.forEach((demand, index) => {
        if (demand.product === product) waiting -= schedule.sold[index]?.[week] ?? 0;
      });
      value -= Math.max(0, waiting) * problem.costOfWaiting;
    }
  });
  problem.rooms.forEach((room, index) => {
    value -= openingCost(room, schedule.opens[index] ?? null);
  });
  return { ...schedule, value };
}
