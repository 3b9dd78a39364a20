import { ProductSales } from './best-sales';
import { openingCost } from './opening-cost';
import { cartonsPacked } from './settle';
import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from './types';

/** A room put elsewhere, all others as they are. */
export interface WhatIf {
  /** Money less than the schedule as it stands; negative where it would be worth more. */
  readonly cost: number;
  /** Cartons sold: `sold[demand][week]`, for the demands in `touched` alone. */
  readonly sold: readonly Float64Array[];
  /** Demands whose product the room gives. */
  readonly touched: readonly number[];
}

/** Rounds of exchanging bins between two of a room's weeks; one is enough for two weeks. */
const MOST_ROUNDS = 4;
const MOST_CUTS = 24;
/** Money below which a better exchange is not looked for. */
const CLOSE = 0.05;

/**
 * A schedule as it stands, and what it would be worth with one room opened in another week or left closed: every
 * other room's weeks and packing stay, the room's bins are spread over its weeks as is best, and the products it gives
 * are sold anew as is best. The schedule itself is valued with its best sales too, so that the two compare.
 */
export class Standing {
  /** Bins the packhouse has left in each week. */
  readonly free: Float64Array;
  /** Rooms standing open in each week. */
  readonly open: Int32Array;
  /** Cartons sold as is best: `sold[demand][week]`. */
  readonly sold: readonly Float64Array[];
  private readonly supply: readonly Float64Array[];
  private readonly sales: readonly ProductSales[];
  private readonly gains: readonly number[];

  constructor(
    readonly problem: ReleaseProblem,
    readonly schedule: ReleaseSchedule,
  ) {
    this.free = Float64Array.from(problem.packingBins);
    this.open = new Int32Array(problem.weeks);
    schedule.packed.forEach((row) => {
      row.forEach((bins, week) => {
        this.free[week] = (this.free[week] ?? 0) - bins;
      });
    });
    schedule.opens.forEach((week, room) => {
      if (week === null) return;
      for (let at = week; at < week + this.emptyingWeeks(room, week); at++)
        this.open[at] = (this.open[at] ?? 0) + 1;
    });
    this.supply = cartonsPacked(problem, schedule.packed);
    this.sales = problem.products.map((_, product) => new ProductSales(problem, product));
    this.gains = this.supply.map((cartons, product) => this.sales[product]?.hold(cartons) ?? 0);
    const sold = problem.demands.map(() => new Float64Array(problem.weeks));
    for (const one of this.sales) one.addSold(sold);
    this.sold = sold;
  }

  emptyingWeeks(room: number, week: number): number {
    return Math.min(this.room(room).weeksToEmpty, this.problem.weeks - week);
  }

  /** Bins the packhouse could take of the room, week by week, were it opened then; itself taken out first. */
  freeFor(room: number, week: number): Float64Array {
    const packed = this.schedule.packed[room] ?? [];
    return Float64Array.from({ length: this.emptyingWeeks(room, week) }, (_, since) =>
      Math.max(0, (this.free[week + since] ?? 0) + (packed[week + since] ?? 0)),
    );
  }

  /** Rooms other than this one that stand open in the week. */
  othersOpen(room: number, week: number): number {
    const opens = this.schedule.opens[room] ?? null;
    const itself = opens !== null && week >= opens && week < opens + this.emptyingWeeks(room, opens);
    return (this.open[week] ?? 0) - (itself ? 1 : 0);
  }

  /**
   * The room opened in `week`, or closed. Undefined where its bins do not fit in what the packhouse has left. `rough`
   * spreads its bins as they are spread now and looks for nothing better.
   */
  whatIf(room: number, week: number | null, rough = false): WhatIf | undefined {
    const one = this.room(room);
    const products = this.productsOf(one);
    const without = products.map((product) => this.supplyWithout(room, product));
    const most = week === null ? new Float64Array(0) : this.freeFor(room, week);
    const bins = firstSpread(week === null ? 0 : one.bins, most, this.binsSinceOpening(room));
    if (!bins) return undefined;
    const value = (spread: Float64Array): number => {
      let sum = 0;
      products.forEach((product, index) => {
        const cartons = (without[index] ?? []).slice() as Float64Array;
        spread.forEach((amount, since) => {
          const at = (week ?? 0) + since;
          cartons[at] = (cartons[at] ?? 0) + amount * (one.cartonsABin[at]?.[product] ?? 0);
        });
        sum += this.gainOf(product, cartons);
      });
      return sum;
    };
    if (week !== null && !rough) this.spreadBest(one, week, products, bins, most, value);
    const after = value(bins) - openingCost(one, week);
    const before =
      products.reduce((sum, product) => sum + this.valueAsItStands(product), 0) -
      openingCost(one, this.schedule.opens[room] ?? null);
    const touched = this.problem.demands.flatMap(({ product }, demand) =>
      products.includes(product) ? [demand] : [],
    );
    const sold = this.problem.demands.map(() => new Float64Array(this.problem.weeks));
    for (const product of products) this.sales[product]?.addSold(sold);
    return { cost: before - after, sold, touched };
  }

  /**
   * Spreads the bins over the weeks, exchanging between two weeks at a time. The value is concave in what is exchanged,
   * and the worth of one more carton gives its slope, so cutting where two tangents meet ends at the best exchange.
   */
  private spreadBest(
    room: ProblemRoom,
    week: number,
    products: readonly number[],
    bins: Float64Array,
    most: Float64Array,
    value: (bins: Float64Array) => number,
  ): void {
    const slope = (from: number, to: number): number => {
      const worth = (since: number) =>
        products.reduce((sum, product) => {
          const aCarton = this.problem.processingPrice + (this.sales[product]?.marginal(week + since) ?? 0);
          return sum + aCarton * (room.cartonsABin[week + since]?.[product] ?? 0);
        }, 0);
      return worth(to) - worth(from);
    };
    for (let round = 0; round < (bins.length > 2 ? MOST_ROUNDS : 1); round++) {
      let moved = false;
      for (let from = 0; from < bins.length; from++) {
        for (let to = from + 1; to < bins.length; to++)
          moved = exchange(bins, most, from, to, value, () => slope(from, to)) || moved;
      }
      if (!moved) return;
    }
  }

  private room(index: number): ProblemRoom {
    const room = this.problem.rooms[index];
    if (!room) throw new RangeError(`no room ${index}`);
    return room;
  }

  private binsSinceOpening(room: number): readonly number[] {
    const opens = this.schedule.opens[room] ?? null;
    return opens === null ? [] : (this.schedule.packed[room]?.slice(opens) ?? []);
  }

  private productsOf(room: ProblemRoom): number[] {
    return this.problem.products.flatMap((_, product) =>
      room.cartonsABin.some((week) => (week[product] ?? 0) > 0) ? [product] : [],
    );
  }

  private supplyWithout(room: number, product: number): Float64Array {
    const cartons = (this.supply[product] ?? new Float64Array(this.problem.weeks)).slice();
    this.schedule.packed[room]?.forEach((bins, week) => {
      const given = bins * (this.problem.rooms[room]?.cartonsABin[week]?.[product] ?? 0);
      cartons[week] = Math.max(0, (cartons[week] ?? 0) - given);
    });
    return cartons;
  }

  private valueAsItStands(product: number): number {
    return (this.gains[product] ?? 0) + this.problem.processingPrice * sum(this.supply[product] ?? []);
  }

  private gainOf(product: number, cartons: Float64Array): number {
    return (this.sales[product]?.sell(cartons) ?? 0) + this.problem.processingPrice * sum(cartons);
  }
}

/** Bins as they are spread now where the weeks take them, the rest as early as can be; undefined where they do not fit. */
function firstSpread(bins: number, most: Float64Array, now: readonly number[]): Float64Array | undefined {
  const spread = most.map((room, since) => Math.min(bins, room, now[since] ?? 0));
  let left = bins - sum(spread);
  spread.forEach((already, since) => {
    const more = Math.max(
      Math.min(left, (most[since] ?? 0) - already),
      left < 0 ? Math.max(left, -already) : 0,
    );
    spread[since] = already + more;
    left -= more;
  });
  return left <= 1e-6 * Math.max(1, bins) ? spread : undefined;
}

/** Moves bins between two weeks to where the value is greatest; false where they stay. */
function exchange(
  bins: Float64Array,
  most: Float64Array,
  from: number,
  to: number,
  value: (bins: Float64Array) => number,
  slopeNow: () => number,
): boolean {
  const [inFrom, inTo] = [bins[from] ?? 0, bins[to] ?? 0];
  const [low, high] = [-Math.min(inTo, (most[from] ?? 0) - inFrom), Math.min(inFrom, (most[to] ?? 0) - inTo)];
  const at = (moved: number) => {
    bins[from] = inFrom - moved;
    bins[to] = inTo + moved;
    return { moved, value: value(bins), slope: slopeNow() };
  };
  if (high - low <= 1e-6) return false;
  const here = at(0);
  let best = here;
  if (here.slope > 0 ? high > 0 : low < 0) {
    const end = at(here.slope > 0 ? high : low);
    if (end.value > best.value) best = end;
    let [left, right] = here.slope > 0 ? [here, end] : [end, here];
    for (let cut = 0; cut < MOST_CUTS && left.slope > 0 && right.slope < 0; cut++) {
      const meet =
        (right.value - left.value + left.slope * left.moved - right.slope * right.moved) /
        (left.slope - right.slope);
      const limit = left.value + left.slope * (meet - left.moved);
      if (!(meet > left.moved && meet < right.moved) || limit - best.value <= CLOSE) break;
      const middle = at(meet);
      if (middle.value > best.value) best = middle;
      if (middle.slope > 0) left = middle;
      else if (middle.slope < 0) right = middle;
      else break;
    }
  }
  at(best.moved);
  return best.value > here.value + CLOSE;
}

function sum(values: ArrayLike<number>): number {
  let total = 0;
  for (let index = 0; index < values.length; index++) total += values[index] as number;
  return total;
}
