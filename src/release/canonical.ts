import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from './types';

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
  const products = orderBy(problem.products, (product) => `${product.variety}\n${product.packClass}`);
  const demands = orderBy(problem.demands, (demand) => demand.id);
  const productAt = inverse(products);
  const roomAt = inverse(rooms);
  const sorted: ReleaseProblem = {
    ...problem,
    rooms: pick(problem.rooms, rooms).map((room) => withProducts(room, products)),
    products: pick(problem.products, products),
    demands: pick(problem.demands, demands).map((demand) => ({
      ...demand,
      product: productAt[demand.product] ?? demand.product,
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
      processed: pick(schedule.processed, productAt),
      value: schedule.value,
    }),
  };
}

function withProducts(room: ProblemRoom, products: readonly number[]): ProblemRoom {
  return { ...room, cartonsABin: room.cartonsABin.map((week) => pick(week, products)) };
}

function orderBy<T>(list: readonly T[], key: (item: T) => string): number[] {
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
