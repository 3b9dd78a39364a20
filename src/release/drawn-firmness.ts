import type { DrawInputs } from './draw-inputs';
import type { Draw } from './draws';
import type { Softening } from './softening';
import { sourcesOf } from './sources';
import type { ProblemDemand, ReleaseProblem, ReleaseSchedule } from './types';

/** What buyers accept in a season drawn. Products are as planned, with those that part from them behind. */
export interface DrawnSales {
  readonly products: ReleaseProblem['products'];
  readonly demands: readonly ProblemDemand[];
  /** Where a room's share of a product goes: the product itself, but for rooms that part from it. */
  productOf(room: number, product: number): number;
}

/** Sunday of a week, whose firmness decides for the whole of it. */
const SUNDAY = 6 / 7;
/** So that a whole number of weeks is not lost to the last binary digit. */
const HAIR = 1e-9;

/**
 * What buyers accept in a season drawn. Fruit that keeps longer softens as much later: a room's storage life and its
 * firmness go together, as both are the same ripening. A room whose fruit is then too soft for a buyer while its cartons
 * can be sold, or no longer, parts from the product that it shares with others as planned. Fruit that is too soft for a
 * buyer in every week as planned stays so. Undefined where no buyer asks for firm fruit.
 */
export function drawnSales(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  { softens }: DrawInputs,
  draw: Draw,
): DrawnSales | undefined {
  if (!softens || softens.length === 0) return undefined;
  const untils = limitsByShare(problem, schedule, softens, draw);
  const products = [...problem.products];
  const parted = new Map<string, number>();
  /** Products that took the place of one, with what limits them: `[demand, last week]`. */
  const kinds = new Map<number, { readonly index: number; readonly limits: Limits }[]>();
  for (const { product, room, limits } of untils) {
    const own = kinds.get(product) ?? [];
    const key = keyOf(limits);
    let kind = own.find((one) => keyOf(one.limits) === key);
    if (!kind) {
      const planned = problem.products[product];
      const index = own.length === 0 || !planned ? product : products.push(planned) - 1;
      kind = { index, limits };
      kinds.set(product, [...own, kind]);
    }
    parted.set(`${room} ${product}`, kind.index);
  }
  const demands = problem.demands.map((demand, at): ProblemDemand => {
    const sources = sourcesOf(problem, demand);
    if (!sources.some(({ product }) => kinds.has(product))) return demand;
    const from = sources.flatMap((source) =>
      (kinds.get(source.product) ?? [{ index: source.product, limits: new Map() }]).map(
        ({ index, limits }) => ({
          product: index,
          until: limits.get(at) ?? source.until,
        }),
      ),
    );
    return { ...demand, from };
  });
  return { products, demands, productOf: (room, product) => parted.get(`${room} ${product}`) ?? product };
}

/** Last week of sale by demand, of those that ask for firm fruit. */
type Limits = ReadonlyMap<number, number>;

function keyOf(limits: Limits): string {
  return [...limits].map(([demand, until]) => `${demand}:${until}`).join(' ');
}

/** For each room that opens and each product it gives: the last week in which each buyer takes it. */
function limitsByShare(
  problem: ReleaseProblem,
  { opens }: ReleaseSchedule,
  softens: readonly Softening[],
  draw: Draw,
): { readonly product: number; readonly room: number; readonly limits: Limits }[] {
  const shares = new Map<string, { product: number; room: number; limits: Map<number, number> }>();
  for (const softening of softens) {
    const { demand, product, room } = softening;
    const one = problem.rooms[room];
    const week = opens[room] ?? null;
    if (!one || week === null) continue;
    const lastSale = Math.min(problem.weeks, week + one.weeksToEmpty + problem.packedWaitWeeks) - 1;
    const last = lastWeek(softening, draw);
    const share = shares.get(`${room} ${product}`) ?? { product, room, limits: new Map<number, number>() };
    share.limits.set(demand, last >= lastSale ? problem.weeks - 1 : Math.max(-1, last));
    shares.set(`${room} ${product}`, share);
  }
  return [...shares.values()].sort((a, b) => a.product - b.product || a.room - b.room);
}

/** The last week in which it is firm enough, as the season went. */
function lastWeek({ room, from, until }: Softening, draw: Draw): number {
  return Math.floor(from + (until - from) * (draw.storageLife[room] ?? 1) - SUNDAY + HAIR);
}
