import { ProductSales } from './best-sales';
import type { DrawInputs } from './draw-inputs';
import type { Draw } from './draws';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/** How a schedule came out in a season drawn. */
export interface Outcome {
  /** Sales and processing less shortage and waiting; soft fruit is counted as it comes, not as a risk. */
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
  private readonly sales: readonly ProductSales[];
  private readonly factors: Float64Array;

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly schedule: ReleaseSchedule,
    private readonly inputs: DrawInputs,
  ) {
    this.sales = problem.products.map((_, product) => new ProductSales(problem, product));
    this.factors = new Float64Array(problem.demands.length);
  }

  outcome(draw: Draw): Outcome {
    const { problem } = this;
    const { cartons, processed, soft } = this.packed(draw);
    this.factors.set(draw.demand);
    let value = problem.processingPrice * processed;
    const sold = problem.demands.map(() => new Float64Array(problem.weeks));
    cartons.forEach((supply, product) => {
      const sales = this.sales[product];
      sales?.want(this.factors);
      value += (sales?.sell(supply) ?? 0) + problem.processingPrice * sum(supply);
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
    const { problem, schedule } = this;
    const { weeks, rooms, products } = problem;
    const cartons = products.map(() => new Float64Array(weeks));
    const filled = rooms.map((_, room) => this.filling(room, draw));
    const waiting = new Float64Array(rooms.length);
    const [all, lost] = [new Float64Array(rooms.length), new Float64Array(rooms.length)];
    for (let week = 0; week < weeks; week++) {
      const toPack = rooms.map(
        (_, room) => (schedule.packed[room]?.[week] ?? 0) * (filled[room]?.bins ?? 1) + (waiting[room] ?? 0),
      );
      const total = sum(toPack);
      const run = total > 0 ? Math.min(1, (problem.packingBins[week] ?? 0) / total) : 1;
      toPack.forEach((bins, room) => {
        waiting[room] = bins * (1 - run);
        if (bins * run <= 0) return;
        const kept = this.keptShare(room, week, draw);
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
    return { cartons, processed: sum(lost), soft };
  }

  /** Bins in a room as a share of those planned, and each variety's cartons a bin as a share of the plan's. */
  private filling(room: number, draw: Draw): { bins: number; mix: ReadonlyMap<string, number> } {
    const one = this.inputs.rooms[room];
    const factors = draw.crop[room];
    const planned = this.problem.rooms[room]?.bins ?? 0;
    let bins = one && one.varieties.size > 0 ? 0 : 1;
    for (const [variety, share] of one?.varieties ?? []) bins += share * (factors?.get(variety) ?? 1);
    // A room holds no more than it has places, however large the crop; one planned fuller stays as it is planned.
    const most =
      one?.places === undefined || planned <= 0
        ? Number.POSITIVE_INFINITY
        : Math.max(1, one.places / planned);
    const mix = new Map(
      [...(one?.varieties ?? [])].map(([name]) => [name, (factors?.get(name) ?? 1) / bins] as const),
    );
    return { bins: Math.min(bins, most), mix };
  }

  /** Share of the week before the room's fruit falls below standard. */
  private keptShare(room: number, week: number, draw: Draw): number {
    const keeps = this.inputs.rooms[room]?.keeps;
    if (!keeps) return 1;
    const until = keeps.from + (keeps.until - keeps.from) * (draw.storageLife[room] ?? 1);
    return Math.max(0, Math.min(1, until - week));
  }
}

function sum(values: ArrayLike<number>): number {
  let total = 0;
  for (let index = 0; index < values.length; index++) total += values[index] as number;
  return total;
}
