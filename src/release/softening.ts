import { type Day, firstDayOfWeek } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { ProblemFruit } from './problem';
import type { FruitSource } from './room-products';
import { sourcesOf } from './sources';
import type { ReleaseProblem } from './types';

/** When a room's share of a product becomes too soft for a buyer who asks for firm fruit. */
export interface Softening {
  readonly demand: number;
  readonly product: number;
  readonly room: number;
  /** Weeks of the season with parts: from picking until its first lot is expected to fall below what is asked for. */
  readonly from: number;
  readonly until: number;
}

type FruitLot = FruitSource['lots'][number];

/** Weeks after the season in which fruit may still be looked for to become too soft. */
const BEYOND = 60;

/** When each product becomes too soft for each buyer who asks for firm fruit; `fruit` is what the problem was made of. */
export function softenings(plan: Plan, problem: ReleaseProblem, { fruit, made }: ProblemFruit): Softening[] {
  return problem.demands.flatMap((demand, index) => {
    const wanted = plan.demand.get(demand.id);
    const least = wanted?.leastFirmness?.value;
    const packClass = wanted?.packClass?.value;
    if (least === undefined || packClass === undefined) return [];
    return sourcesOf(problem, demand).flatMap(({ product }) =>
      fruit.flatMap((source, room) => {
        const lots = source.lots.filter(
          ({ lot }) => made.productOf(source.id, lot.id, packClass) === product,
        );
        const [first] = lots
          .flatMap((lot) => crossing(lot, least, problem) ?? [])
          .sort((one, other) => one.until - other.until);
        return first ? [{ demand: index, product, room, ...first }] : [];
      }),
    );
  });
}

type Crossing = Pick<Softening, 'from' | 'until'>;

/** When a lot is expected to fall below the firmness, between the two Sundays around it. */
function crossing(
  { lot, firmnessOn }: FruitLot,
  least: number,
  { firstWeek, weeks }: ReleaseProblem,
): Crossing | undefined {
  const picked: Day | undefined = lot.picked?.value.first;
  const on = (week: number) => firmnessOn(firstDayOfWeek(firstWeek + week) + 6) ?? Number.POSITIVE_INFINITY;
  let [low, high] = [-1, weeks + BEYOND];
  if (picked === undefined || !(on(high) < least)) return undefined;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (on(middle) < least) high = middle;
    else low = middle;
  }
  const [before, after] = [on(low), on(high)];
  const part = Number.isFinite(before) && before > after ? (before - least) / (before - after) : 0;
  return {
    from: (picked - firstDayOfWeek(firstWeek)) / 7,
    until: low + 6 / 7 + Math.max(0, Math.min(1 - 1e-6, part)),
  };
}
