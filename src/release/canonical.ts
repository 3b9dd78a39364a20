import type { ProblemDemand, ProblemRoom, ReleaseProblem, ReleaseSchedule } from './types';

/** A problem with its lists in a fixed order, and the way back. */
export interface CanonicalProblem {
  readonly problem: ReleaseProblem;
  /** Indexes of the original problem's rooms, ascending, for indexes of the canonical one's. */
  originalRooms(rooms: readonly number[]): number[];
  /** A schedule of the canonical problem as one of the original. */
  restore(schedule: ReleaseSchedule): ReleaseSchedule;
}

/**
 * The same problem with rooms by fill, products by variety and class, and demands by identifier. The order of entries
 * in a plan then cannot change what is found.
 */
export function canonicalProblem(problem: ReleaseProblem): CanonicalProblem {
  const rooms = orderBy(problem.rooms, (room) => room.fill);
  const demands = orderBy(problem.demands, (demand) => demand.id);
  const takers = takersOf(problem, demands);
  const products = orderBy(
    problem.products,
    ({ variety, packClass }, product) => `${variety}\n${packClass}\n${takers[product] ?? ''}`,
  );
  const productAt = inverse(products);
  const roomAt = inverse(rooms);
  const sorted: ReleaseProblem = {
    ...problem,
    rooms: pick(problem.rooms, rooms).map((room) => withProducts(room, products)),
    products: pick(problem.products, products),
    demands: pick(problem.demands, demands).map((demand) => ({
      ...demand,
      product: productAt[demand.product] ?? demand.product,
      ...(demand.from && {
        from: pick(demand.from, sourceOrder(demand, productAt)).map((source) => ({
          ...source,
          product: productAt[source.product] ?? source.product,
        })),
      }),
    })),
    ...(problem.opensBefore && {
      opensBefore: problem.opensBefore
        .map(([first, later]) => [roomAt[first] ?? first, roomAt[later] ?? later] as const)
        .sort((a, b) => a[0] - b[0] || a[1] - b[1]),
    }),
  };
  const demandAt = inverse(demands);
  return {
    problem: sorted,
    originalRooms: (list) => pick(rooms, list).sort((a, b) => a - b),
    restore: (schedule) => ({
      opens: pick(schedule.opens, roomAt),
      packed: pick(schedule.packed, roomAt),
      sold: pick(schedule.sold, demandAt),
      ...(schedule.soldFrom && {
        soldFrom: pick(schedule.soldFrom, demandAt).map((sources, demand) => {
          const one = problem.demands[demand];
          return one?.from ? pick(sources, inverse(sourceOrder(one, productAt))) : sources;
        }),
      }),
      processed: pick(schedule.processed, productAt),
      value: schedule.value,
    }),
  };
}

/** What tells products of one variety and class apart: the demands that name them, and until when. */
function takersOf(problem: ReleaseProblem, demands: readonly number[]): string[] {
  const takers = problem.products.map(() => '');
  for (const { id, from } of pick(problem.demands, demands))
    for (const { product, until } of from ?? []) takers[product] = `${takers[product] ?? ''}${id} ${until}\n`;
  return takers;
}

function sourceOrder({ from }: ProblemDemand, productAt: readonly number[]): number[] {
  const sources = from ?? [];
  const at = (source: number) => productAt[sources[source]?.product ?? 0] ?? 0;
  return sources.map((_, source) => source).sort((a, b) => at(a) - at(b));
}

function withProducts(room: ProblemRoom, products: readonly number[]): ProblemRoom {
  return { ...room, cartonsABin: room.cartonsABin.map((week) => pick(week, products)) };
}

function orderBy<T>(list: readonly T[], key: (item: T, index: number) => string): number[] {
  const keys = list.map(key);
  return keys
    .map((_, index) => index)
    .sort((a, b) => {
      const [first, second] = [keys[a] ?? '', keys[b] ?? ''];
      return first < second ? -1 : first > second ? 1 : a - b;
    });
}

function inverse(order: readonly number[]): number[] {
  const at = new Array<number>(order.length);
  order.forEach((from, to) => {
    at[from] = to;
  });
  return at;
}

function pick<T>(list: readonly T[], order: readonly number[]): T[] {
  return order.map((index) => list[index] as T);
}
