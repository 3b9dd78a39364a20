import type { ReleaseModel } from './model';
import { cartonsPacked, valued } from './settle';
import { nothingSoldFrom, soldFromPart, sourcesOf } from './sources';
import type { ReleaseProblem, ReleaseSchedule } from './types';

/**
 * The schedule that a solution of the model describes. The solver's numbers are right only to its tolerance, so they
 * are taken as wishes and carried out carton by carton, oldest first: what comes out holds exactly.
 */
export function replayedSchedule(
  problem: ReleaseProblem,
  model: ReleaseModel,
  columns: ArrayLike<number>,
): ReleaseSchedule {
  const opens: (number | null)[] = problem.rooms.map(() => null);
  const packed = problem.rooms.map(() => new Array<number>(problem.weeks).fill(0));
  for (const { room, week, column, shares } of model.openings) {
    if ((columns[column] ?? 0) < 0.5) continue;
    opens[room] = week;
    const parts = shares.map((share) => Math.max(0, columns[share] ?? 0));
    const sum = parts.reduce((all, part) => all + part, 0);
    // A room is packed whole; fruit from the field as far as it pays.
    const whole = problem.rooms[room]?.fromField ? Math.max(1, sum) : sum;
    const row = packed[room];
    parts.forEach((part, since) => {
      if (row) row[week + since] = ((problem.rooms[room]?.bins ?? 0) * part) / whole;
    });
  }
  const sold = problem.demands.map(() => new Array<number>(problem.weeks).fill(0));
  const soldFrom = nothingSoldFrom(problem);
  const wish = (column: number | undefined) =>
    column === undefined || column < 0 ? 0 : Math.max(0, columns[column] ?? 0);
  const processed = cartonsPacked(problem, packed).map((cartons, product) =>
    sellOldestFirst(problem, product, cartons, sold, soldFrom, {
      sell: (demand, source, week) => wish(model.sold[demand]?.[source]?.[week]),
      process: (week) => wish(model.processed[product]?.[week]),
    }),
  );
  return valued(problem, { opens, packed, sold, ...soldFromPart(problem, soldFrom), processed, value: 0 });
}

/** Carries out wishes week by week as far as there are cartons; returns what is processed. `cartons` is used up. */
function sellOldestFirst(
  problem: ReleaseProblem,
  product: number,
  cartons: Float64Array,
  sold: readonly number[][],
  soldFrom: readonly (readonly Float64Array[])[],
  wishes: {
    readonly sell: (demand: number, source: number, week: number) => number;
    readonly process: (week: number) => number;
  },
): number[] {
  const { weeks, packedWaitWeeks: wait } = problem;
  const take = (week: number, wanted: number) => {
    let left = wanted;
    for (let packed = Math.max(0, week - wait); packed <= week && left > 0; packed++) {
      const taken = Math.min(left, cartons[packed] ?? 0);
      cartons[packed] = (cartons[packed] ?? 0) - taken;
      left -= taken;
    }
    return wanted - left;
  };
  return Array.from({ length: weeks }, (_, week) => {
    problem.demands.forEach((demand, index) => {
      const row = sold[index];
      sourcesOf(problem, demand).forEach((source, at) => {
        if (source.product !== product || week > source.until || !row) return;
        const wanted = Math.max(0, (demand.cartons[week] ?? 0) - (row[week] ?? 0));
        const taken = take(week, Math.min(wanted, wishes.sell(index, at, week)));
        row[week] = (row[week] ?? 0) + taken;
        const from = soldFrom[index]?.[at];
        if (from) from[week] = taken;
      });
    });
    let processed = take(week, wishes.process(week));
    // Whatever may wait no longer goes too; at the season's end, everything.
    for (let packed = Math.max(0, week - wait); packed <= week; packed++) {
      if (week - packed < wait && week < weeks - 1) continue;
      processed += cartons[packed] ?? 0;
      cartons[packed] = 0;
    }
    return processed;
  });
}
