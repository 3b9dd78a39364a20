import { poolsOf, sourcesOf } from './sources';
import type { ReleaseProblem, ReleaseResult } from './types';

export const SIMPLE_BOUND_RESTS_ON =
  'every carton that the rooms can give sold to the best payer, in any week between their earliest and latest, ' +
  'as if the packhouse had no limit';

/** Whether a schedule is that of the quick search and a longer one may still better it. */
export function isQuick({ boundRestsOn, provenOptimal }: ReleaseResult): boolean {
  return boundRestsOn === SIMPLE_BOUND_RESTS_ON && !provenOptimal;
}

/** A carton wanted in a week: what it is worth over processing it. */
interface Wish {
  readonly week: number;
  readonly cartons: number;
  readonly worth: number;
}

/**
 * A limit on the value of any schedule, found without a solver in a millisecond or two. Each product for itself, or
 * several together where a demand may be filled from any of them: every
 * room gives the most cartons it can, none before its earliest week and none later than its latest, and they go to the
 * wishes that are worth most. The packhouse, the open limit, waiting and risk are left out, so no schedule can be
 * worth more.
 */
export function simpleBound(problem: ReleaseProblem, unmet: readonly number[] = []): number {
  let bound = 0;
  poolsOf(problem).forEach((pool) => {
    const { from, until, total } = supplyWindows(problem, pool, unmet);
    const wishes = wishesOf(problem, pool);
    bound +=
      problem.processingPrice * total +
      Math.min(bestSales(wishes, from), bestSales(reversed(wishes, problem.weeks), until));
  });
  for (const demand of problem.demands)
    bound -= demand.priceOfShortage * demand.cartons.reduce((sum, cartons) => sum + cartons, 0);
  // Left room for the rounding of the sums above.
  return bound + 1e-9 * Math.max(1, Math.abs(bound));
}

/** Cartons that can be there by each week, and by each week counted from the season's end. */
function supplyWindows(problem: ReleaseProblem, pool: readonly number[], unmet: readonly number[]) {
  const { weeks } = problem;
  const [from, until] = [new Float64Array(weeks), new Float64Array(weeks)];
  let total = 0;
  problem.rooms.forEach((room, index) => {
    if (unmet.includes(index)) return;
    const first = room.pinned ?? room.earliest;
    const lastPacked = Math.min(weeks - 1, (room.pinned ?? room.latest) + room.weeksToEmpty - 1);
    if (first > lastPacked) return;
    const yields = room.cartonsABin
      .slice(first, lastPacked + 1)
      .map((week) => pool.reduce((sum, product) => sum + (week[product] ?? 0), 0));
    const cartons = room.bins * Math.max(...yields);
    const last = Math.min(weeks - 1, lastPacked + problem.packedWaitWeeks);
    for (let week = first; week < weeks; week++) from[week] = (from[week] ?? 0) + cartons;
    for (let week = 0; week <= last; week++) {
      const back = weeks - 1 - week;
      until[back] = (until[back] ?? 0) + cartons;
    }
    total += cartons;
  });
  return { from, until, total };
}

function wishesOf(problem: ReleaseProblem, pool: readonly number[]): Wish[] {
  return problem.demands
    .filter((demand) => sourcesOf(problem, demand).some(({ product }) => pool.includes(product)))
    .flatMap((demand) => {
      const worth = demand.price + demand.priceOfShortage - problem.processingPrice;
      return demand.cartons.map((cartons, week) => ({ week, cartons, worth }));
    })
    .filter((wish) => wish.cartons > 0 && wish.worth > 0)
    .sort((a, b) => b.worth - a.worth);
}

function reversed(wishes: readonly Wish[], weeks: number): Wish[] {
  return wishes.map((wish) => ({ ...wish, week: weeks - 1 - wish.week }));
}

/**
 * Most that the wishes can bring where the cartons sold up to each week may not pass `cumulative`. The limits are
 * nested, so taking the best wish first, as much of it as they leave, is exact.
 */
function bestSales(wishes: readonly Wish[], cumulative: Float64Array): number {
  const left = cumulative.slice();
  let sum = 0;
  for (const { week, cartons, worth } of wishes) {
    let taken = cartons;
    for (let later = week; later < left.length; later++) taken = Math.min(taken, left[later] ?? 0);
    if (taken <= 0) continue;
    for (let later = week; later < left.length; later++) left[later] = (left[later] ?? 0) - taken;
    sum += taken * worth;
  }
  return sum;
}
