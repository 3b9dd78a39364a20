import { worthUnpacked } from './from-field';
import { openingCost } from './opening-cost';
import { PricedAgain } from './price-certificate';
import type { PartProof, PartsProof, PriceTree } from './price-tree';
import { poolsOf, sourcesOf } from './sources';
import type { ReleaseProblem } from './types';

export const PRICED_CASES_REST_ON =
  'cases for each variety at prices of the packhouse, of open rooms and of each place in a demand; worked out anew from ' +
  'the cases and their prices alone, without the solver';

/** Rounding of the sums below, as a share of what is summed. */
const ROUNDING = 1e-9;

/** Weeks a room may open in, from and to, and whether it may stay closed. */
interface Window {
  readonly from: number;
  readonly to: number;
  readonly mayClose: boolean;
}

/**
 * The bound that a season taken apart proves, worked out from the problem, the prices and the cases alone: what is shared
 * at its price, and of each part the most that any of its cases can bring. Where the parts together give a room less for
 * a week than it brings, what is missing is added, so that no way of sharing it can prove too much. Throws where the
 * parts do not hold all products once, or cut through products that a demand takes together.
 */
export function boundOfParts(
  problem: ReleaseProblem,
  unmet: readonly number[],
  proof: PartsProof,
  season = new PricedAgain(problem, proof.prices),
): number {
  checkProducts(problem, proof.parts);
  season.mustStandAt(proof.prices);
  let bound = season.weeksCost().reduce((sum, cost) => sum + cost, 0);
  let summed = Math.abs(bound);
  const add = (money: number) => {
    bound += money;
    summed += Math.abs(money);
  };
  problem.rooms.forEach((_, room) => {
    add(missing(problem, season, proof.parts, room, unmet.includes(room)));
  });
  for (const part of proof.parts) add(new PartAgain(problem, unmet, season, part).bound());
  return bound + ROUNDING * Math.max(1, summed);
}

function checkProducts(problem: ReleaseProblem, parts: readonly PartProof[]): void {
  const all = parts.flatMap(({ products }) => products).sort((a, b) => a - b);
  const partOf = (product: number) => parts.findIndex(({ products }) => products.includes(product));
  const whole = poolsOf(problem).every((pool) => pool.every((one) => partOf(one) === partOf(pool[0] ?? 0)));
  if (!whole || all.some((product, at) => product !== at) || all.length !== problem.products.length)
    throw new RangeError('the parts do not hold every product once, with all that a demand takes');
}

/** The most by which a room brings more than its parts say, in a week or closed; and what it brings whatever is chosen. */
function missing(
  problem: ReleaseProblem,
  season: PricedAgain,
  parts: readonly PartProof[],
  index: number,
  isUnmet: boolean,
): number {
  const room = problem.rooms[index];
  if (!room) return 0;
  const its = parts.flatMap(({ rooms }) => rooms.filter((one) => one.room === index));
  const window = windowOf(problem, index, isUnmet);
  const always = worthUnpacked(problem, room) * room.bins;
  const short: number[] = [];
  if (window.mayClose)
    short.push(
      (room.fromField ? 0 : -openingCost(room, null)) - its.reduce((sum, { closed }) => sum + closed, 0),
    );
  for (let week = window.from; week <= window.to; week++) {
    const given = its.map(({ weeks }) => weeks.find((one) => one.week === week)?.brings ?? 0);
    short.push(season.opening(room, week) - given.reduce((sum, one) => sum + one, 0));
  }
  return always + Math.max(0, ...short);
}

function windowOf(problem: ReleaseProblem, index: number, isUnmet: boolean): Window {
  const room = problem.rooms[index];
  if (!room) return { from: 0, to: -1, mayClose: true };
  if (room.fromField) return { from: room.earliest, to: room.earliest, mayClose: true };
  if (isUnmet) return { from: 0, to: -1, mayClose: true };
  const [from, to] = [room.pinned ?? room.earliest, room.pinned ?? room.latest];
  return {
    from: Math.max(0, from),
    to: Math.min(problem.weeks - 1, to),
    mayClose: room.pinned === null,
  };
}

class PartAgain {
  private readonly demands: readonly number[];
  private readonly prices: Float64Array;

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly unmet: readonly number[],
    private readonly season: PricedAgain,
    private readonly part: PartProof,
  ) {
    this.demands = problem.demands.flatMap((demand, index) =>
      part.products.includes(sourcesOf(problem, demand)[0]?.product ?? demand.product) ? [index] : [],
    );
    this.prices = new Float64Array(problem.weeks * problem.demands.length);
  }

  bound(): number {
    const windows = this.problem.rooms.map((_, room) =>
      windowOf(this.problem, room, this.unmet.includes(room)),
    );
    return this.below(this.part.tree, windows);
  }

  private below(tree: PriceTree, windows: readonly Window[]): number {
    if (tree.kind === 'leaf') return this.leaf(tree.wanted, windows);
    const held = (change: Partial<Window>) =>
      windows.map((window, room) => (room === tree.room ? { ...window, ...change } : window));
    const { from = 0, to = -1 } = windows[tree.room] ?? {};
    if (tree.kind === 'weeks')
      return Math.max(
        this.below(tree.before, held({ to: Math.min(to, tree.week - 1) })),
        this.below(tree.after, held({ from: Math.max(from, tree.week) })),
      );
    return Math.max(
      this.below(tree.closed, held({ from: 0, to: -1 })),
      this.below(tree.opened, held({ mayClose: false })),
    );
  }

  private leaf(wanted: Float64Array, windows: readonly Window[]): number {
    const { weeks } = this.problem;
    this.demands.forEach((demand, nth) => {
      this.prices.set(wanted.subarray(nth * weeks, (nth + 1) * weeks), demand * weeks);
    });
    this.season.priceWanted(this.prices);
    let bound = 0;
    for (const demand of this.demands) for (const cost of this.season.placesCost(demand)) bound += cost;
    for (const { room: index, closed, weeks } of this.part.rooms) {
      const room = this.problem.rooms[index];
      const window = windows[index];
      if (!room || !window) continue;
      let most = window.mayClose ? closed : Number.NEGATIVE_INFINITY;
      for (let week = window.from; week <= window.to; week++) {
        const brings = weeks.find((one) => one.week === week)?.brings ?? 0;
        most = Math.max(most, brings + this.season.salesOf(room, week, this.part.products));
      }
      bound += most;
    }
    return bound;
  }
}
