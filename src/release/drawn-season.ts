import { PoolSales } from './best-sales';
import type { DrawInputs } from './draw-inputs';
import { drawnFilling, keptShare } from './drawn-room';
import type { Draw } from './draws';
import { Unevenness } from './even-work';
import { worthUnpacked } from './from-field';
import { poolsOf } from './sources';
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
 * Carries a schedule out in seasons other than planned. Rooms open in their weeks and are packed as planned, in
 * proportion to what is in them; what the packhouse cannot run waits for the next week. Fruit past its life is
 * processed. Sales are the best there can be of what is packed.
 */
export class DrawnSeason {
  private readonly pools: readonly (readonly number[])[];
  private readonly sales: readonly PoolSales[];
  private readonly factors: Float64Array;
  private readonly unevenness: Unevenness;

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly schedule: ReleaseSchedule,
    private readonly inputs: DrawInputs,
  ) {
    this.pools = poolsOf(problem);
    this.sales = this.pools.map((pool) => new PoolSales(problem, pool));
    this.factors = new Float64Array(problem.demands.length);
    this.unevenness = new Unevenness(problem);
  }

  outcome(draw: Draw): Outcome {
    const { problem } = this;
    const { cartons, processed, soft, unpacked, binsRun } = this.packed(draw);
    this.factors.set(draw.demand);
    let value = problem.processingPrice * processed + unpacked - this.unevenness.cost(binsRun);
    const sold = problem.demands.map(() => new Float64Array(problem.weeks));
    for (const supply of cartons) value += problem.processingPrice * sum(supply);
    this.pools.forEach((pool, index) => {
      const sales = this.sales[index];
      sales?.want(this.factors);
      value += sales?.sell(pool.map((product) => cartons[product] ?? [])) ?? 0;
      sales?.addSold(sold);
    });
    const wanted = problem.demands.map((demand, index) =>
      Float64Array.from(demand.cartons, (one) => one * (this.factors[index] ?? 1)),
    );
    problem.demands.forEach((demand, index) => {
      value -= demand.priceOfShortage * sum(wanted[index] ?? []);
    });
    return { value, wanted, sold, soft };
  }

  private packed(draw: Draw) {
    const { problem, schedule, inputs } = this;
    const { weeks, rooms, products } = problem;
    const cartons = products.map(() => new Float64Array(weeks));
    const filled = rooms.map((_, room) => drawnFilling(problem, inputs, room, draw));
    const waiting = new Float64Array(rooms.length);
    const binsRun = new Float64Array(weeks);
    const [all, lost] = [new Float64Array(rooms.length), new Float64Array(rooms.length)];
    const left = rooms.map((one, room) => (one.fromField ? one.bins * (filled[room]?.bins ?? 1) : 0));
    for (let week = 0; week < weeks; week++) {
      const toPack = rooms.map((one, room) => {
        if (one.fromField && week >= one.earliest + one.weeksToEmpty) return 0;
        return (schedule.packed[room]?.[week] ?? 0) * (filled[room]?.bins ?? 1) + (waiting[room] ?? 0);
      });
      const total = sum(toPack);
      const run = total > 0 ? Math.min(1, (problem.packingBins[week] ?? 0) / total) : 1;
      binsRun[week] = total * run;
      toPack.forEach((bins, room) => {
        waiting[room] = bins * (1 - run);
        left[room] = (left[room] ?? 0) - bins * run;
        if (bins * run <= 0) return;
        const kept = keptShare(inputs, room, week, draw);
        rooms[room]?.cartonsABin[week]?.forEach((aBin, product) => {
          const mix = filled[room]?.mix.get(products[product]?.variety ?? '') ?? 1;
          const given = bins * run * aBin * mix * (draw.packout[product] ?? 1);
          const into = cartons[product];
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

function sum(values: ArrayLike<number>): number {
  let total = 0;
  for (let index = 0; index < values.length; index++) total += values[index] as number;
  return total;
}
