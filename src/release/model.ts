import { addAttribution } from './attribution';
import { workingWeekBefore } from './even-work';
import { worthUnpacked } from './from-field';
import { type LinearModel, LinearModelBuilder } from './linear-model';
import type { OpeningColumn } from './opening-column';
import { openingCost } from './opening-cost';
import { sourcesOf } from './sources';
import type { ProblemRoom, ReleaseProblem } from './types';

/** The season as a linear program, and what its columns mean. */
export interface ReleaseModel {
  readonly linear: LinearModel;
  readonly openings: readonly OpeningColumn[];
  /** Cartons sold: `sold[demand][source][week]` is a column, or -1 where nothing can be sold. */
  readonly sold: readonly (readonly Int32Array[])[];
  /** Cartons processed: `processed[product][week]` likewise. */
  readonly processed: readonly Int32Array[];
}

export interface ModelOptions {
  /** Weeks each room may open in, ascending; none leaves it closed. */
  readonly weeksOf: (room: number) => readonly number[];
  /** Rooms that must open: pinned ones, or all where the weeks are given. */
  readonly mustOpen: (room: number) => boolean;
  /** Attribute sales to rooms: many more rows, and a far closer relaxation. */
  readonly attribution: boolean;
}

/**
 * The release problem as a mixed-integer program. With x[r,w] = 1 where room r opens in week w and y the share of its
 * bins packed in each week from there:
 *
 *     maximise  (price + shortage) sold + processing x processed - waiting x stock - (risk + change) x
 *     share     sum of y[r,w,.] = x[r,w]               once      sum of x[r,.] <= 1, = 1 where it must open
 *     packing   sum of bins y <= packhouse's bins      open      rooms standing open <= limit
 *     packed    cartons[p,t] = sum of bins x cartons a bin x y
 *     last      the same for rooms in the last week of their emptying, on the days left to them
 *     field     sum of y <= 1 for fruit from the field, each y no more than its days allow; - processing x bins y
 *     even      uneven[t] >= pace[t] - pace[before t] and >= pace[before t] - pace[t], each at its price
 *     order     sum of x[later,t] up to w + sum of x[first,t] from w on <= 1, for each week w
 *     stock     stock[t] = stock[t-1] + cartons - sold - processed, for each product
 *     wanted    sum of sold over the products a demand may be filled from <= wanted
 *     waiting   stock[t] <= cartons of the last `packedWaitWeeks` weeks; oldest-first selling makes that exact
 *
 * Cartons that are never sold are processed in the week they are packed: later would only cost waiting.
 */
export function buildModel(problem: ReleaseProblem, options: ModelOptions): ReleaseModel {
  const builder = new LinearModelBuilder();
  const openings = addOpenings(builder, problem, options);
  addPackhouse(builder, problem, openings);
  addEvenWork(builder, problem, openings);
  addOrder(builder, problem, openings);
  const noColumns = () => new Int32Array(problem.weeks).fill(-1);
  const sold = problem.demands.map((demand) => sourcesOf(problem, demand).map(noColumns));
  const processed = problem.products.map(noColumns);
  processed.forEach((columns, product) => {
    addProduct(builder, problem, openings, product, { sold, processed: columns });
  });
  addWanted(builder, problem, sold);
  if (options.attribution) addAttribution(builder, problem, openings, sold);
  for (const demand of problem.demands)
    builder.offset -= demand.priceOfShortage * demand.cartons.reduce((sum, cartons) => sum + cartons, 0);
  return { linear: builder.build(), openings, sold, processed };
}

/** The whole season: every room in any week of its window, a pinned one in its week. */
export function seasonModel(
  problem: ReleaseProblem,
  unmet: readonly number[],
  attribution: boolean,
): ReleaseModel {
  return buildModel(problem, {
    weeksOf: (room) => (unmet.includes(room) ? [] : allowedWeeks(problem.rooms[room])),
    mustOpen: (room) => problem.rooms[room]?.pinned !== null,
    attribution,
  });
}

function allowedWeeks(room: ProblemRoom | undefined): number[] {
  if (!room) return [];
  if (room.pinned !== null) return [room.pinned];
  return Array.from(
    { length: Math.max(0, room.latest - room.earliest + 1) },
    (_, index) => room.earliest + index,
  );
}

function addOpenings(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  { weeksOf, mustOpen }: ModelOptions,
): OpeningColumn[] {
  const openings: OpeningColumn[] = [];
  problem.rooms.forEach((one, room) => {
    if (one.fromField) {
      openings.push(addFromField(builder, problem, one, room));
      return;
    }
    const weeks = weeksOf(room);
    const closed = openingCost(one, null);
    builder.offset -= closed;
    const fixed = mustOpen(room) && weeks.length === 1;
    const columns = weeks.map((week) => {
      const column = builder.column(closed - openingCost(one, week), fixed ? 1 : 0, 1, true);
      const count = Math.min(one.weeksToEmpty, problem.weeks - week);
      const shares = Array.from({ length: count }, () => (count === 1 ? column : builder.column(0, 0, 1)));
      openings.push({ room, week, column, shares });
      if (count > 1) {
        for (const share of shares) builder.entry(share, 1);
        builder.entry(column, -1);
        builder.row(0, 0);
      }
      return column;
    });
    if (columns.length > 1) {
      for (const column of columns) builder.entry(column, 1);
      builder.row(mustOpen(room) ? 1 : 0, 1);
    }
  });
  return openings;
}

/**
 * Fruit from the field is there whatever is chosen, and packed as far as it pays: a bin less for processing with each
 * bin that is packed.
 */
function addFromField(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  one: ProblemRoom,
  room: number,
): OpeningColumn {
  const { bins, earliest: week, weeksToEmpty, fromField } = one;
  const brings = bins * worthUnpacked(problem, one);
  builder.offset += brings;
  const column = builder.column(0, 1, 1, true);
  const shares = Array.from({ length: Math.min(weeksToEmpty, problem.weeks - week) }, (_, since) =>
    builder.column(-brings, 0, Math.min(1, (fromField?.mostBins[since] ?? 0) / bins)),
  );
  for (const share of shares) builder.entry(share, 1);
  builder.entry(column, -1);
  builder.row(Number.NEGATIVE_INFINITY, 0);
  return { room, week, column, shares };
}

function addPackhouse(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  openings: readonly OpeningColumn[],
): void {
  for (let week = 0; week < problem.weeks; week++) {
    for (const opening of openings) {
      const share = opening.shares[week - opening.week];
      if (share !== undefined) builder.entry(share, problem.rooms[opening.room]?.bins ?? 0);
    }
    builder.row(Number.NEGATIVE_INFINITY, problem.packingBins[week] ?? 0);
    addLastWeek(builder, problem, openings, week);
    if (problem.roomsOpenAtOnce === null) continue;
    for (const opening of openings) {
      const isOpen = opening.shares[week - opening.week] !== undefined;
      if (isOpen && !problem.rooms[opening.room]?.fromField) builder.entry(opening.column, 1);
    }
    builder.row(Number.NEGATIVE_INFINITY, problem.roomsOpenAtOnce);
  }
}

function addLastWeek(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  openings: readonly OpeningColumn[],
  week: number,
): void {
  const most = problem.lastWeekBins?.[week];
  if (most === undefined || most >= (problem.packingBins[week] ?? 0)) return;
  for (const { room, week: opens, shares } of openings) {
    const one = problem.rooms[room];
    const isLast = one && !one.fromField && opens + one.weeksToEmpty - 1 === week;
    const share = isLast ? shares[week - opens] : undefined;
    if (one && share !== undefined) builder.entry(share, one.bins);
  }
  builder.row(Number.NEGATIVE_INFINITY, most);
}

/** Bins of each room are shares of its opening, so that the pace is linear in them. */
function addEvenWork(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  openings: readonly OpeningColumn[],
): void {
  const { evenWork, packingBins } = problem;
  if (!evenWork || evenWork.price <= 0) return;
  workingWeekBefore(evenWork.fullWeeks).forEach((before, week) => {
    if (before < 0) return;
    const most = Math.max(
      ...[week, before].map((at) => (packingBins[at] ?? 0) / (evenWork.fullWeeks[at] ?? 1)),
    );
    const uneven = builder.column(-evenWork.price, 0, most);
    for (const sign of [1, -1]) {
      builder.entry(uneven, 1);
      for (const { room, week: opens, shares } of openings) {
        const bins = problem.rooms[room]?.bins ?? 0;
        for (const [at, side] of [
          [week, -sign],
          [before, sign],
        ] as const) {
          const share = shares[at - opens];
          if (share !== undefined) builder.entry(share, (side * bins) / (evenWork.fullWeeks[at] ?? 1));
        }
      }
      builder.row(0, Number.POSITIVE_INFINITY);
    }
  });
}

/** What a demand takes of several products is together no more than it wants. */
function addWanted(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  sold: readonly (readonly Int32Array[])[],
): void {
  problem.demands.forEach((demand, index) => {
    demand.cartons.forEach((wanted, week) => {
      const columns = (sold[index] ?? []).map((of) => of[week] ?? -1).filter((column) => column >= 0);
      if (columns.length < 2) return;
      for (const column of columns) builder.entry(column, 1);
      builder.row(Number.NEGATIVE_INFINITY, wanted);
    });
  });
}

/** Never is the later room open by a week in which the first one opens, or after which it does. */
function addOrder(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  openings: readonly OpeningColumn[],
): void {
  for (const [first, later] of problem.opensBefore ?? []) {
    const [ofFirst, ofLater] = [first, later].map((room) => openings.filter((one) => one.room === room));
    for (const { week } of ofLater ?? []) {
      const after = (ofFirst ?? []).filter((one) => one.week >= week);
      if (after.length === 0) continue;
      for (const { column } of after) builder.entry(column, 1);
      for (const one of ofLater ?? []) if (one.week <= week) builder.entry(one.column, 1);
      builder.row(Number.NEGATIVE_INFINITY, 1);
    }
  }
}

function addProduct(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  openings: readonly OpeningColumn[],
  product: number,
  into: { readonly sold: readonly (readonly Int32Array[])[]; readonly processed: Int32Array },
): void {
  const { weeks, packedWaitWeeks: wait } = problem;
  const total = mostCartons(problem, openings, product);
  const packed = addPacked(builder, problem, openings, product, total);
  const reached = (week: number) => {
    for (let back = 0; back <= wait; back++) if ((packed[week - back] ?? -1) >= 0) return true;
    return false;
  };
  const stock = Int32Array.from({ length: weeks }, (_, week) =>
    wait > 0 && week < weeks - 1 && reached(week) ? builder.column(-problem.costOfWaiting, 0, total) : -1,
  );
  for (let week = 0; week < weeks; week++) {
    if (!reached(week)) continue;
    addBalance(builder, problem, product, week, { packed, stock, total, ...into });
    const held = stock[week] ?? -1;
    if (held < 0) continue;
    builder.entry(held, 1);
    for (let back = 0; back < wait; back++) {
      const cartons = packed[week - back] ?? -1;
      if (cartons >= 0) builder.entry(cartons, -1);
    }
    builder.row(Number.NEGATIVE_INFINITY, 0);
  }
}

/** A column of cartons for each week in which the product can be packed, -1 in the others. */
function addPacked(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  openings: readonly OpeningColumn[],
  product: number,
  total: number,
): Int32Array {
  return Int32Array.from({ length: problem.weeks }, (_, week) => {
    let any = false;
    for (const { room, week: opens, shares } of openings) {
      const share = shares[week - opens];
      const one = problem.rooms[room];
      const cartons = share === undefined ? 0 : (one?.bins ?? 0) * (one?.cartonsABin[week]?.[product] ?? 0);
      if (share === undefined || cartons <= 0) continue;
      any = true;
      builder.entry(share, cartons);
    }
    if (!any) return -1;
    const column = builder.column(0, 0, total);
    builder.entry(column, -1);
    builder.row(0, 0);
    return column;
  });
}

function addBalance(
  builder: LinearModelBuilder,
  problem: ReleaseProblem,
  product: number,
  week: number,
  columns: {
    readonly packed: Int32Array;
    readonly stock: Int32Array;
    readonly sold: readonly (readonly Int32Array[])[];
    readonly processed: Int32Array;
    readonly total: number;
  },
): void {
  const packed = columns.packed[week] ?? -1;
  const [before, after] = [columns.stock[week - 1] ?? -1, columns.stock[week] ?? -1];
  if (packed >= 0) builder.entry(packed, 1);
  if (before >= 0) builder.entry(before, 1);
  if (after >= 0) builder.entry(after, -1);
  if (packed >= 0) {
    const column = builder.column(problem.processingPrice, 0, columns.total);
    columns.processed[week] = column;
    builder.entry(column, -1);
  }
  problem.demands.forEach((demand, index) => {
    const wanted = demand.cartons[week] ?? 0;
    if (wanted <= 0) return;
    sourcesOf(problem, demand).forEach((source, at) => {
      if (source.product !== product || week > source.until) return;
      const column = builder.column(demand.price + demand.priceOfShortage, 0, wanted);
      const row = columns.sold[index]?.[at];
      if (row) row[week] = column;
      builder.entry(column, -1);
    });
  });
  builder.row(0, 0);
}

/** Most cartons of a product that all rooms together can give. */
function mostCartons(problem: ReleaseProblem, openings: readonly OpeningColumn[], product: number): number {
  const most = new Float64Array(problem.rooms.length);
  for (const { room, week, shares } of openings) {
    const one = problem.rooms[room];
    shares.forEach((_, since) => {
      const cartons = (one?.bins ?? 0) * (one?.cartonsABin[week + since]?.[product] ?? 0);
      most[room] = Math.max(most[room] ?? 0, cartons);
    });
  }
  return most.reduce((sum, cartons) => sum + cartons, 0);
}
