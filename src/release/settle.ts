import { binsByWeek, Unevenness } from './even-work';
import { binsUnpacked, moneyUnpacked } from './from-field';
import { betterOrder, marketOf, type Sales, sellPool } from './market';
import { openingCost } from './opening-cost';
import type { Found } from './search';
import { nothingSoldFrom, soldByProduct, soldFromPart } from './sources';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** The schedule that follows from opening weeks and bins packed, sales by rule. */
export function settledSchedule(problem: ReleaseProblem, found: Found): ReleaseSchedule {
  const { weeks } = problem;
  const market = marketOf(problem);
  const sales: Sales = {
    sold: problem.demands.map(() => new Float64Array(weeks)),
    soldFrom: nothingSoldFrom(problem),
  };
  const supply = cartonsPacked(problem, found.packed);
  const scratch = supply.map((cartons) => cartons.slice());
  market.pools.forEach((_, pool) => {
    const { order } = betterOrder(market, pool, supply, scratch);
    sellPool(market, pool, order, supply, sales);
  });
  return valued(problem, {
    opens: openingWeeks(found.opens),
    packed: found.packed,
    sold: sales.sold.map((row) => Array.from(row)),
    ...soldFromPart(problem, sales.soldFrom),
    processed: supply.map((cartons) => Array.from(cartons, (left) => Math.max(0, left))),
    value: 0,
  });
}

export function openingWeeks(opens: ArrayLike<number>): (number | null)[] {
  return Array.from(opens, (week) => (week < 0 ? null : week));
}

/** Fruit from the field counts as opened only where some of it is packed. */
function isOpened({ rooms }: ReleaseProblem, { packed }: ReleaseSchedule, room: number): boolean {
  const one = rooms[room];
  return !one?.fromField || binsUnpacked(one, packed[room]) < one.bins;
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

/** The schedule with its value: sales + processing - shortage - waiting - risk - changes - uneven work. */
export function valued(problem: ReleaseProblem, found: ReleaseSchedule): ReleaseSchedule {
  const schedule = {
    ...found,
    opens: found.opens.map((week, room) => (isOpened(problem, found, room) ? week : null)),
  };
  let value = moneyUnpacked(problem, schedule.packed);
  problem.demands.forEach((demand, index) => {
    demand.cartons.forEach((wanted, week) => {
      const sold = schedule.sold[index]?.[week] ?? 0;
      value += sold * demand.price - Math.max(0, wanted - sold) * demand.priceOfShortage;
    });
  });
  const sold = soldByProduct(problem, schedule);
  cartonsPacked(problem, schedule.packed).forEach((cartons, product) => {
    let waiting = 0;
    for (let week = 0; week < problem.weeks; week++) {
      const processed = schedule.processed[product]?.[week] ?? 0;
      value += processed * problem.processingPrice;
      waiting += (cartons[week] ?? 0) - processed - (sold[product]?.[week] ?? 0);
      value -= Math.max(0, waiting) * problem.costOfWaiting;
    }
  });
  problem.rooms.forEach((room, index) => {
    value -= openingCost(room, schedule.opens[index] ?? null);
  });
  value -= new Unevenness(problem).cost(binsByWeek(schedule.packed, problem.weeks));
  return { ...schedule, value };
}
