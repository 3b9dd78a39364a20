import { PoolSales } from './best-sales';
import type { DrawInputs } from './draw-inputs';
import { type DrawnSales, drawnSales } from './drawn-firmness';
import { drawnFilling, keptShare } from './drawn-room';
import type { Draw } from './draws';
import { Unevenness } from './even-work';
import { worthUnpacked } from './from-field';
import { packedAnew } from './respread';
import { poolsOf, sourcesOf } from './sources';
import type { ProblemRoom, ReleaseProblem, ReleaseSchedule } from './types';

/** How a schedule came out in a season drawn. */
export interface Outcome {
  /**
   * Sales and processing less shortage, waiting and uneven work, as the season went; soft fruit is counted as it comes,
   * not as a risk. Changes from the published schedule are left out: they cost the same in every season.
   */
  readonly value: number;
  /** Cartons wanted and sold: `[demand][week]`. */
  readonly wanted: readonly Float64Array[];
  readonly sold: readonly Float64Array[];
  /** Share of each room's cartons that were soft by the time they were packed. */
  readonly soft: readonly number[];
}

/**
 * Carries a schedule out in seasons other than planned. Rooms open in their weeks. What is in them is packed in the
 * planned proportions or, with `respread`, spread anew over the weeks of their emptying where that is worth more; what
 * the packhouse cannot run waits for the next week. Fruit past its life is processed, and buyers refuse what has become
 * too soft for them. Sales are the best there can be of what is packed.
 */
export class DrawnSeason {
  private readonly planned: Sellers;
  private readonly factors: Float64Array;
  private readonly unevenness: Unevenness;

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly schedule: ReleaseSchedule,
    private readonly inputs: DrawInputs,
    private readonly respread = false,
  ) {
    this.planned = sellersOf(problem);
    this.factors = new Float64Array(problem.demands.length);
    this.unevenness = new Unevenness(problem);
  }

  /** What the season comes to: the better of both spreads where packing may be spread anew. */
  outcome(draw: Draw): Outcome {
    const { problem, schedule, inputs } = this;
    const accepted = drawnSales(problem, schedule, inputs, draw);
    const sellers = accepted ? sellersOf({ ...problem, ...accepted }, this.planned) : this.planned;
    const planned = problem.rooms.map((_, room) => {
      const { bins } = drawnFilling(problem, inputs, room, draw);
      return schedule.packed[room]?.map((amount) => amount * bins) ?? [];
    });
    const inProportion = this.carriedOut(draw, planned, sellers, accepted);
    if (!this.respread) return inProportion;
    const spread = packedAnew(problem, schedule, inputs, draw, accepted);
    const anew = this.carriedOut(draw, spread, sellers, accepted);
    return anew.value > inProportion.value ? anew : inProportion;
  }

  private carriedOut(
    draw: Draw,
    toPack: readonly (readonly number[])[],
    { pools, sales }: Sellers,
    accepted: DrawnSales | undefined,
  ): Outcome {
    const { problem } = this;
    const { cartons, processed, soft, unpacked, binsRun } = this.packed(draw, toPack, accepted);
    this.factors.set(draw.demand);
    let value = problem.processingPrice * processed + unpacked - this.unevenness.cost(binsRun);
    const sold = problem.demands.map(() => new Float64Array(problem.weeks));
    for (const supply of cartons) value += problem.processingPrice * sum(supply);
    pools.forEach((pool, index) => {
      const ofPool = sales[index];
      ofPool?.want(this.factors);
      value += ofPool?.sell(pool.map((product) => cartons[product] ?? [])) ?? 0;
      ofPool?.addSold(sold);
    });
    const wanted = problem.demands.map((demand, index) =>
      Float64Array.from(demand.cartons, (one) => one * (this.factors[index] ?? 1)),
    );
    problem.demands.forEach((demand, index) => {
      value -= demand.priceOfShortage * sum(wanted[index] ?? []);
    });
    return { value, wanted, sold, soft };
  }

  private packed(draw: Draw, toPack: readonly (readonly number[])[], accepted: DrawnSales | undefined) {
    const { problem, inputs } = this;
    const { weeks, rooms, products } = problem;
    const cartons = (accepted?.products ?? products).map(() => new Float64Array(weeks));
    const filled = rooms.map((_, room) => drawnFilling(problem, inputs, room, draw));
    const waiting = new Float64Array(rooms.length);
    const binsRun = new Float64Array(weeks);
    const [all, lost] = [new Float64Array(rooms.length), new Float64Array(rooms.length)];
    const left = rooms.map((one, room) => (one.fromField ? one.bins * (filled[room]?.bins ?? 1) : 0));
    for (let week = 0; week < weeks; week++) {
      const due = rooms.map((one, room) => {
        if (one.fromField && week >= one.earliest + one.weeksToEmpty) return 0;
        return (toPack[room]?.[week] ?? 0) + (waiting[room] ?? 0);
      });
      const total = sum(due);
      const run = total > 0 ? Math.min(1, (problem.packingBins[week] ?? 0) / total) : 1;
      binsRun[week] = total * run;
      due.forEach((bins, room) => {
        waiting[room] = bins * (1 - run);
        left[room] = (left[room] ?? 0) - bins * run;
        if (bins * run <= 0) return;
        const kept = keptShare(inputs, room, week, draw);
        rooms[room]?.cartonsABin[week]?.forEach((aBin, product) => {
          const mix = filled[room]?.mix.get(products[product]?.variety ?? '') ?? 1;
          const given = bins * run * aBin * mix * (draw.packout[product] ?? 1);
          const into = cartons[accepted?.productOf(room, product) ?? product];
          if (into) into[week] = (into[week] ?? 0) + given * kept;
          all[room] = (all[room] ?? 0) + given;
          lost[room] = (lost[room] ?? 0) + given * (1 - kept);
        });
      });
    }
    const soft = Array.from(all, (given, room) => (given > 0 ? (lost[room] ?? 0) / given : 0));
    let unpacked = 0;
    rooms.forEach((one, room) => {
      if (one.fromField) unpacked += (left[room] ?? 0) * this.worthUnpacked(one, filled[room]?.mix, draw);
    });
    return { cartons, processed: sum(lost), soft, unpacked, binsRun };
  }

  /** What a bin from the field that is not packed brings in processing, as its fruit came out. */
  private worthUnpacked(room: ProblemRoom, mix: ReadonlyMap<string, number> | undefined, draw: Draw): number {
    const { problem } = this;
    const aBin = (cartons: number, product: number) =>
      cartons * (mix?.get(problem.products[product]?.variety ?? '') ?? 1) * (draw.packout[product] ?? 1);
    return worthUnpacked(problem, { ...room, cartonsABin: room.cartonsABin.map((week) => week.map(aBin)) });
  }
}

/** Pools of products, and the best sales of each. */
interface Sellers {
  readonly problem: ReleaseProblem;
  readonly pools: readonly (readonly number[])[];
  readonly sales: readonly PoolSales[];
}

/** Those of a pool that is as it was are taken from `usual`. */
function sellersOf(problem: ReleaseProblem, usual?: Sellers): Sellers {
  const pools = poolsOf(problem);
  const sales = pools.map((pool) => {
    const at = usual?.pools.findIndex((other) => sameItems(other, pool)) ?? -1;
    const same = usual && at >= 0 && samePool(problem, usual.problem, pool);
    return (same ? usual.sales[at] : undefined) ?? new PoolSales(problem, pool);
  });
  return { problem, pools, sales };
}

function samePool(one: ReleaseProblem, other: ReleaseProblem, pool: readonly number[]): boolean {
  return one.demands.every((demand, at) => {
    const before = other.demands[at];
    if (demand === before) return true;
    const [now, then] = [sourcesOf(one, demand), before ? sourcesOf(other, before) : []];
    if (!now.some(({ product }) => pool.includes(product))) return true;
    return (
      now.length === then.length &&
      now.every(
        ({ product, until }, source) => then[source]?.product === product && then[source]?.until === until,
      )
    );
  });
}

function sameItems(one: readonly number[], other: readonly number[]): boolean {
  return one.length === other.length && one.every((item, at) => item === other[at]);
}

function sum(values: ArrayLike<number>): number {
  let total = 0;
  for (let index = 0; index < values.length; index++) total += values[index] as number;
  return total;
}
