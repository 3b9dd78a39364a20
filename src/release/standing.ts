import { PoolSales } from './best-sales';
import { binsByWeek, Unevenness } from './even-work';
import { openingCost } from './opening-cost';
import { cartonsPacked } from './settle';
import { poolsOf, sourcesOf } from './sources';
import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from './types';

/** A room put elsewhere, all others as they are. */
export interface WhatIf {
  /** Money less than the schedule as it stands; negative where it would be worth more. */
  readonly cost: number;
  /** Cartons sold: `sold[demand][week]`, for the demands in `touched` alone. */
  readonly sold: readonly Float64Array[];
  /** Demands that the room can fill. */
  readonly touched: readonly number[];
  /** Bins of the room packed in each week of its emptying; none where it is closed. */
  readonly bins: Float64Array;
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
  /** Of these, bins it has left on the days that a room in its last week of emptying may still use. */
  readonly freeLast: Float64Array;
  /** Rooms standing open in each week. */
  readonly open: Int32Array;
  /** Cartons sold as is best: `sold[demand][week]`. */
  readonly sold: readonly Float64Array[];
  private readonly supply: readonly Float64Array[];
  private readonly pools: readonly (readonly number[])[];
  private readonly sales: readonly PoolSales[];
  private readonly gains: readonly number[];
  private readonly unevenness: Unevenness;
  private readonly busy: Float64Array;

  constructor(
    readonly problem: ReleaseProblem,
    readonly schedule: ReleaseSchedule,
  ) {
    this.free = Float64Array.from(problem.packingBins);
    this.freeLast = Float64Array.from(problem.lastWeekBins ?? problem.packingBins);
    this.open = new Int32Array(problem.weeks);
    this.unevenness = new Unevenness(problem);
    this.busy = binsByWeek(schedule.packed, problem.weeks);
    this.busy.forEach((bins, week) => {
      this.free[week] = (this.free[week] ?? 0) - bins;
    });
    schedule.opens.forEach((week, room) => {
      if (week === null || this.room(room).fromField) return;
      const last = week + this.room(room).weeksToEmpty - 1;
      this.freeLast[last] = (this.freeLast[last] ?? 0) - (schedule.packed[room]?.[last] ?? 0);
    });
    schedule.opens.forEach((week, room) => {
      if (week === null || this.room(room).fromField) return;
      for (let at = week; at < week + this.emptyingWeeks(room, week); at++)
        this.open[at] = (this.open[at] ?? 0) + 1;
    });
    this.supply = cartonsPacked(problem, schedule.packed);
    this.pools = poolsOf(problem);
    this.sales = this.pools.map((pool) => new PoolSales(problem, pool));
    this.gains = this.pools.map((pool, index) => this.sales[index]?.hold(this.rowsOf(pool)) ?? 0);
    const sold = problem.demands.map(() => new Float64Array(problem.weeks));
    for (const one of this.sales) one.addSold(sold);
    this.sold = sold;
  }

  /** The schedule with a room put elsewhere, its sales left to be found anew; for a further change on top. */
  moved(room: number, week: number | null, bins: Float64Array): Standing {
    const row = new Array<number>(this.problem.weeks).fill(0);
    bins.forEach((amount, since) => {
      row[(week ?? 0) + since] = amount;
    });
    return new Standing(this.problem, {
      ...this.schedule,
      opens: this.schedule.opens.map((now, index) => (index === room ? week : now)),
      packed: this.schedule.packed.map((now, index) => (index === room ? row : now)),
    });
  }

  emptyingWeeks(room: number, week: number): number {
    return Math.min(this.room(room).weeksToEmpty, this.problem.weeks - week);
  }

  /** Bins the packhouse could take of the room, week by week, were it opened then; itself taken out first. */
  freeFor(room: number, week: number): Float64Array {
    const packed = this.schedule.packed[room] ?? [];
    const { weeksToEmpty } = this.room(room);
    const lastNow = (this.schedule.opens[room] ?? -weeksToEmpty) + weeksToEmpty - 1;
    return Float64Array.from({ length: this.emptyingWeeks(room, week) }, (_, since) => {
      const at = week + since;
      const free = (this.free[at] ?? 0) + (packed[at] ?? 0);
      if (since !== weeksToEmpty - 1) return Math.max(0, free);
      const freeLast = (this.freeLast[at] ?? 0) + (lastNow === at ? (packed[at] ?? 0) : 0);
      return Math.max(0, Math.min(free, freeLast));
    });
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
    const pools = this.poolsOfRoom(one);
    const without = pools.map((pool) => this.rowsWithout(room, pool));
    const busyWithout = this.busy.map((bins, at) => bins - (this.schedule.packed[room]?.[at] ?? 0));
    const most = week === null ? new Float64Array(0) : this.freeFor(room, week);
    const bins = firstSpread(week === null ? 0 : one.bins, most, this.binsSinceOpening(room));
    if (!bins) return undefined;
    const busy = (spread: Float64Array) => added(busyWithout, spread, week ?? 0, () => 1);
    const value = (spread: Float64Array): number => {
      let sum = -this.unevenness.cost(busy(spread));
      pools.forEach((pool, index) => {
        const rows = (this.pools[pool] ?? []).map((product, kind) =>
          added(without[index]?.[kind] ?? [], spread, week ?? 0, (at) => one.cartonsABin[at]?.[product] ?? 0),
        );
        sum += this.gainOf(pool, rows);
      });
      return sum;
    };
    if (week !== null && !rough) this.spreadBest(one, week, pools, bins, most, value, busy);
    const after = value(bins) - openingCost(one, week);
    const before =
      pools.reduce((sum, pool) => sum + this.valueAsItStands(pool), 0) -
      this.unevenness.cost(this.busy) -
      openingCost(one, this.schedule.opens[room] ?? null);
    const products = pools.flatMap((pool) => this.pools[pool] ?? []);
    const touched = this.problem.demands.flatMap((wanted, demand) =>
      sourcesOf(this.problem, wanted).some(({ product }) => products.includes(product)) ? [demand] : [],
    );
    const sold = this.problem.demands.map(() => new Float64Array(this.problem.weeks));
    for (const pool of pools) this.sales[pool]?.addSold(sold);
    return { cost: before - after, sold, touched, bins };
  }

  /**
   * Spreads the bins over the weeks, exchanging between two weeks at a time. The value is concave in what is exchanged,
   * and the worth of one more carton gives its slope, so cutting where two tangents meet ends at the best exchange.
   */
  private spreadBest(
    room: ProblemRoom,
    week: number,
    pools: readonly number[],
    bins: Float64Array,
    most: Float64Array,
    value: (bins: Float64Array) => number,
    busy: (bins: Float64Array) => Float64Array,
  ): void {
    const slope = (from: number, to: number): number => {
      const packed = busy(bins);
      const worth = (since: number) => {
        let sum = -this.unevenness.slope(packed, week + since);
        for (const pool of pools)
          this.pools[pool]?.forEach((product, kind) => {
            const aCarton =
              this.problem.processingPrice + (this.sales[pool]?.marginal(week + since, kind) ?? 0);
            sum += aCarton * (room.cartonsABin[week + since]?.[product] ?? 0);
          });
        return sum;
      };
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

  private poolsOfRoom(room: ProblemRoom): number[] {
    const gives = (product: number) => room.cartonsABin.some((week) => (week[product] ?? 0) > 0);
    return this.pools.flatMap((pool, index) => (pool.some(gives) ? [index] : []));
  }

  private rowsOf(pool: readonly number[]): Float64Array[] {
    return pool.map((product) => this.supply[product] ?? new Float64Array(this.problem.weeks));
  }

  private rowsWithout(room: number, pool: number): Float64Array[] {
    return (this.pools[pool] ?? []).map((product) => {
      const cartons = (this.supply[product] ?? new Float64Array(this.problem.weeks)).slice();
      this.schedule.packed[room]?.forEach((bins, week) => {
        const given = bins * (this.problem.rooms[room]?.cartonsABin[week]?.[product] ?? 0);
        cartons[week] = Math.max(0, (cartons[week] ?? 0) - given);
      });
      return cartons;
    });
  }

  private valueAsItStands(pool: number): number {
    const cartons = this.rowsOf(this.pools[pool] ?? []).reduce((total, row) => total + sum(row), 0);
    return (this.gains[pool] ?? 0) + this.problem.processingPrice * cartons;
  }

  private gainOf(pool: number, rows: readonly Float64Array[]): number {
    const cartons = rows.reduce((total, row) => total + sum(row), 0);
    return (this.sales[pool]?.sell(rows) ?? 0) + this.problem.processingPrice * cartons;
  }
}

/** Amounts by week with so much more of each bin spread from `week` on. */
function added(
  amounts: ArrayLike<number>,
  spread: Float64Array,
  week: number,
  aBin: (week: number) => number,
): Float64Array {
  const all = Float64Array.from(amounts);
  spread.forEach((bins, since) => {
    all[week + since] = (all[week + since] ?? 0) + bins * aBin(week + since);
  });
  return all;
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
