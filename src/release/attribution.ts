import type { LinearModelBuilder } from './linear-model';
import type { OpeningColumn } from './opening-column';
import { poolsOf, sourcesOf } from './sources';
import type { ReleaseProblem } from './types';

/**
 * Attributes what is sold to the rooms it comes from, which brings the linear relaxation close to the truth. Any sale
 * can be traced to the rooms that made its cartons, so every schedule can be written so; but a room opened by half can
 * then meet only half of a week's demand, where without these rows it would meet all of a small one:
 *
 *     sold[d,t] <= sum over rooms of from[r,d,t]
 *     from[r,d,t] <= sum over opening weeks w that reach t of min(wanted[d,t], cartons of r opened in w) x[r,w]
 *     sum over d and t of from[r,d,t] <= sum over w of min(cartons of r, all wanted within reach of w) x[r,w]
 *
 * the last for each pool of products of a room; cartons count where the demand may take them in that week.
 */
export function addAttribution(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  openings: readonly OpeningColumn[],
  sold: readonly (readonly Int32Array[])[],
): void {
  /** Columns of sales attributed, by demand and week. */
  const attributed = problem.demands.map(() => Array.from({ length: problem.weeks }, (): number[] => []));
  const byRoom = groupByRoom(problem, openings);
  for (const pool of poolsOf(problem)) {
    const demands = problem.demands.flatMap((demand, index) =>
      sourcesOf(problem, demand).some(({ product }) => pool.includes(product)) ? [index] : [],
    );
    for (const ways of byRoom) addRoomPool(builder, problem, ways, pool, demands, sold, attributed);
  }
  attributed.forEach((weeks, demand) => {
    weeks.forEach((columns, week) => {
      const parts = (sold[demand] ?? []).map((of) => of[week] ?? -1).filter((column) => column >= 0);
      if (parts.length === 0) return;
      for (const column of parts) builder.entry(column, 1);
      for (const from of columns) builder.entry(from, -1);
      builder.row(Number.NEGATIVE_INFINITY, 0);
    });
  });
}

function addRoomPool(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  ways: readonly OpeningColumn[],
  pool: readonly number[],
  demands: readonly number[],
  sold: readonly (readonly Int32Array[])[],
  attributed: readonly (readonly number[][])[],
): void {
  const gives = problem.rooms[ways[0]?.room ?? 0]?.cartonsABin ?? [];
  if (!gives.some((week) => pool.some((product) => (week[product] ?? 0) > 0))) return;
  // By the products a demand may take in a week: nearly always the same.
  const known = new Map<string, PackedIn[][]>();
  const cartonsOf = (products: readonly number[]) => {
    const key = products.join();
    const cartons = known.get(key) ?? ways.map((way) => cartonsByWeek(problem, way, products));
    known.set(key, cartons);
    return cartons;
  };
  const all: number[] = [];
  const wantedInReach = new Float64Array(ways.length);
  for (const demand of demands) {
    for (let week = 0; week < problem.weeks; week++) {
      const products = soldIn(problem, sold, demand, week);
      if (products.length === 0) continue;
      const wanted = problem.demands[demand]?.cartons[week] ?? 0;
      const cartons = cartonsOf(products);
      const limits = ways.map((_, way) => Math.min(wanted, mostSoldIn(cartons[way] ?? [], week, problem)));
      const upper = Math.max(0, ...limits);
      if (upper <= 0) continue;
      const from = builder.column(0, 0, upper);
      all.push(from);
      attributed[demand]?.[week]?.push(from);
      builder.entry(from, 1);
      ways.forEach((way, index) => {
        builder.entry(way.column, -(limits[index] ?? 0));
        wantedInReach[index] = (wantedInReach[index] ?? 0) + (limits[index] ?? 0);
      });
      builder.row(Number.NEGATIVE_INFINITY, 0);
    }
  }
  if (all.length === 0) return;
  for (const from of all) builder.entry(from, 1);
  ways.forEach((way, index) => {
    const most = Math.max(0, ...(cartonsOf(pool)[index] ?? []).map((one) => one.cartons));
    builder.entry(way.column, -Math.min(most, wantedInReach[index] ?? 0));
  });
  builder.row(Number.NEGATIVE_INFINITY, 0);
}

/** Products of which the demand has a column in the week. */
function soldIn(
  problem: ReleaseProblem,
  sold: readonly (readonly Int32Array[])[],
  demand: number,
  week: number,
): number[] {
  const one = problem.demands[demand];
  if (!one) return [];
  return sourcesOf(problem, one).flatMap(({ product }, source) =>
    (sold[demand]?.[source]?.[week] ?? -1) >= 0 ? [product] : [],
  );
}

interface PackedIn {
  readonly week: number;
  /** Cartons, were all the room's bins packed in that week. */
  readonly cartons: number;
}

function cartonsByWeek(problem: ReleaseProblem, way: OpeningColumn, products: readonly number[]): PackedIn[] {
  const room = problem.rooms[way.room];
  return way.shares.map((_, since) => {
    const week = way.week + since;
    const aBin = products.reduce((sum, product) => sum + (room?.cartonsABin[week]?.[product] ?? 0), 0);
    return { week, cartons: (room?.bins ?? 0) * aBin };
  });
}

/** Most cartons of an opening that can be sold in a week: packed no later, and not waiting too long. */
function mostSoldIn(packed: readonly PackedIn[], week: number, problem: ReleaseProblem): number {
  let most = 0;
  for (const one of packed) {
    if (one.week <= week && week - one.week <= problem.packedWaitWeeks) most = Math.max(most, one.cartons);
  }
  return most;
}

function groupByRoom(problem: ReleaseProblem, openings: readonly OpeningColumn[]): OpeningColumn[][] {
  const groups: OpeningColumn[][] = problem.rooms.map(() => []);
  for (const opening of openings) groups[opening.room]?.push(opening);
  return groups.filter((ways) => ways.length > 0);
}
