import { betterOrder, type Market, marketOf } from './market';
import { openingCost } from './opening-cost';
import type { ReleaseProblem } from './types';

/** Opening week of a room left closed. */
export const CLOSED = -1;

/** Bins are counted as packed to this. */
const BIN_TOLERANCE = 1e-7;

interface StateRoom {
  readonly bins: number;
  readonly weeksToEmpty: number;
  /** Cost of opening in each week over leaving it closed. */
  readonly risk: Float64Array;
  readonly partners: readonly Partner[];
  /** Products the room gives at all. */
  readonly products: Int32Array;
  /** Cartons a bin, `[week * products.length + index into products]`. */
  readonly cartons: Float64Array;
}

/** Another room that a room must open before, or after. */
interface Partner {
  readonly room: number;
  readonly isLater: boolean;
}

/** A change to try: the room opened in `week`, its bins over the weeks from there. */
export interface Placement {
  readonly room: number;
  readonly week: number;
  /** Bins packed in each week from `week` on; ignored where the room stays closed. */
  readonly bins: Float64Array;
}

/**
 * A schedule under change. Holds, for the current placements, the cartons of each product by week and their value;
 * a change re-evaluates only the products it touches.
 */
export class SeasonState {
  readonly market: Market;
  readonly opens: Int32Array;
  /** Longest emptying of any room, in weeks. */
  readonly span: number;
  /** Bins packed: `[room * span + weeks since opening]`. */
  readonly packed: Float64Array;
  /** Bins the packhouse has left in each week. */
  readonly free: Float64Array;
  readonly open: Int32Array;
  private readonly rooms: readonly StateRoom[];
  private readonly supply: Float64Array;
  private readonly values: Float64Array;
  private readonly trial: Float64Array;
  private readonly trialValues: Float64Array;
  private readonly used: Float64Array;
  private readonly touched: Int32Array;
  private touchedCount = 0;
  private readonly marked: Uint8Array;
  private gain = 0;

  constructor(readonly problem: ReleaseProblem) {
    const { weeks, products } = problem;
    this.market = marketOf(problem);
    this.rooms = problem.rooms.map((_, room) => stateRoom(problem, room));
    this.span = Math.max(1, ...this.rooms.map((room) => room.weeksToEmpty));
    this.opens = new Int32Array(this.rooms.length).fill(CLOSED);
    this.packed = new Float64Array(this.rooms.length * this.span);
    this.free = Float64Array.from(problem.packingBins);
    this.open = new Int32Array(weeks);
    this.supply = new Float64Array(products.length * weeks);
    this.values = new Float64Array(products.length);
    this.trial = new Float64Array(products.length * weeks);
    this.trialValues = new Float64Array(products.length);
    this.used = new Float64Array(weeks);
    this.touched = new Int32Array(products.length);
    this.marked = new Uint8Array(products.length);
  }

  /** Money of the schedule, delivering nothing counted as 0. */
  get value(): number {
    return this.gain;
  }

  /** Weeks over which a room opened in `week` is packed; fewer at the season's end. */
  emptyingWeeks(room: number, week: number): number {
    return Math.min((this.rooms[room] as StateRoom).weeksToEmpty, this.problem.weeks - week);
  }

  /** Takes a room out of packing and the open count, so that its place can be used; its cartons stay until `try`. */
  lift(room: number): void {
    this.count(room, -1);
  }

  /** Undoes `lift`. */
  putBack(room: number): void {
    this.count(room, 1);
  }

  /**
   * True where one more room may stand open in all the weeks that a room opened in `week` takes, and the order of rooms
   * is kept. `beside` is a room that moves with it, in its new week.
   */
  mayOpen(room: number, week: number, beside?: { readonly room: number; readonly week: number }): boolean {
    for (const partner of (this.rooms[room] as StateRoom).partners) {
      const other = partner.room === beside?.room ? beside.week : (this.opens[partner.room] as number);
      if (other !== CLOSED && (partner.isLater ? week >= other : week <= other)) return false;
    }
    const limit = this.problem.roomsOpenAtOnce;
    if (limit === null) return true;
    const end = week + this.emptyingWeeks(room, week);
    for (let at = week; at < end; at++) if ((this.open[at] as number) >= limit) return false;
    return true;
  }

  /** Change of value if the placements were made. `commit` makes them; doing nothing forgets them. */
  try(placements: readonly Placement[]): number {
    this.touchedCount = 0;
    let change = 0;
    for (const placement of placements) {
      const now = this.opens[placement.room] as number;
      const { risk } = this.rooms[placement.room] as StateRoom;
      if (now !== CLOSED) {
        change += risk[now] as number;
        this.addTrial(placement.room, now, this.packed, placement.room * this.span, -1);
      }
      if (placement.week !== CLOSED) {
        change -= risk[placement.week] as number;
        this.addTrial(placement.room, placement.week, placement.bins, 0, 1);
      }
    }
    for (let index = 0; index < this.touchedCount; index++) {
      const product = this.touched[index] as number;
      this.marked[product] = 0;
      const value = this.valueOf(product, this.trial);
      this.trialValues[product] = value;
      change += value - (this.values[product] as number);
    }
    return change;
  }

  /** Makes the placements last tried; their rooms must be lifted. `change` is what `try` returned. */
  commit(placements: readonly Placement[], change: number): void {
    const { weeks } = this.problem;
    for (let index = 0; index < this.touchedCount; index++) {
      const product = this.touched[index] as number;
      const from = product * weeks;
      this.supply.set(this.trial.subarray(from, from + weeks), from);
      this.values[product] = this.trialValues[product] as number;
    }
    for (const { room, week, bins } of placements) {
      this.opens[room] = week;
      const at = room * this.span;
      for (let index = 0; index < this.span; index++)
        this.packed[at + index] = week === CLOSED ? 0 : (bins[index] as number);
      this.putBack(room);
    }
    this.gain += change;
  }

  /** Loads placements from elsewhere and computes everything afresh, so that no rounding is carried along. */
  load(opens: ArrayLike<number>, packed: ArrayLike<number>): void {
    this.opens.set(opens);
    this.packed.set(packed);
    this.free.set(this.problem.packingBins);
    this.open.fill(0);
    this.trial.fill(0);
    this.supply.fill(0);
    this.gain = 0;
    for (let room = 0; room < this.rooms.length; room++) {
      const week = this.opens[room] as number;
      if (week === CLOSED) continue;
      this.count(room, 1);
      this.addTrial(room, week, this.packed, room * this.span, 1);
      this.gain -= (this.rooms[room] as StateRoom).risk[week] as number;
    }
    // addTrial starts each product from `supply`, which is empty here, so `trial` now holds all cartons.
    this.supply.set(this.trial);
    this.marked.fill(0);
    this.touchedCount = 0;
    for (let product = 0; product < this.values.length; product++) {
      const value = this.valueOf(product, this.supply);
      this.values[product] = value;
      this.gain += value;
    }
  }

  private valueOf(product: number, cartons: Float64Array): number {
    const { weeks } = this.problem;
    let total = 0;
    const supply = cartons.subarray(product * weeks, (product + 1) * weeks);
    for (let week = 0; week < weeks; week++) total += supply[week] as number;
    return total * this.market.processingPrice + betterOrder(this.market, product, supply, this.used).gain;
  }

  private addTrial(room: number, week: number, bins: Float64Array, offset: number, sign: number): void {
    const { products, cartons } = this.rooms[room] as StateRoom;
    const { weeks } = this.problem;
    const count = this.emptyingWeeks(room, week);
    for (let index = 0; index < products.length; index++) {
      const product = products[index] as number;
      const row = product * weeks;
      if (this.marked[product] === 0) {
        this.marked[product] = 1;
        this.touched[this.touchedCount++] = product;
        this.trial.set(this.supply.subarray(row, row + weeks), row);
      }
      for (let since = 0; since < count; since++) {
        const at = week + since;
        const more =
          sign * (bins[offset + since] as number) * (cartons[at * products.length + index] as number);
        this.trial[row + at] = (this.trial[row + at] as number) + more;
      }
    }
  }

  private count(room: number, sign: number): void {
    const week = this.opens[room] as number;
    if (week === CLOSED) return;
    const count = this.emptyingWeeks(room, week);
    const at = room * this.span;
    for (let since = 0; since < count; since++) {
      const now = week + since;
      this.free[now] = (this.free[now] as number) - sign * (this.packed[at + since] as number);
      this.open[now] = (this.open[now] as number) + sign;
    }
  }
}

/**
 * Spreads bins over the weeks from `week` in the given proportions, never more in a week than is free; what does not
 * fit goes to the weeks that still have room, the earliest first. False where the bins do not fit at all.
 */
export function spreadBins(
  bins: number,
  weights: ArrayLike<number>,
  free: Float64Array,
  week: number,
  count: number,
  into: Float64Array,
): boolean {
  let total = 0;
  for (let since = 0; since < count; since++) total += weights[since] as number;
  let left = bins;
  for (let since = 0; since < into.length; since++) {
    const room = since < count ? Math.max(0, free[week + since] as number) : 0;
    const taken =
      total > 0 && since < count ? Math.min(room, (bins * (weights[since] as number)) / total) : 0;
    into[since] = taken;
    left -= taken;
  }
  for (let since = 0; since < count && left > 0; since++) {
    const more = Math.min(left, Math.max(0, (free[week + since] as number) - (into[since] as number)));
    into[since] = (into[since] as number) + more;
    left -= more;
  }
  return left <= BIN_TOLERANCE * Math.max(1, bins);
}

/** The cost of opening nothing at all: what values of a state leave out. */
export function costOfNothing(problem: ReleaseProblem): number {
  const closed = problem.rooms.reduce((sum, room) => sum + openingCost(room, null), 0);
  return marketOf(problem).shortageOfAll + closed;
}

function partnersOf(problem: ReleaseProblem, room: number): Partner[] {
  const pairs = problem.opensBefore ?? [];
  return [
    ...pairs.filter(([first]) => first === room).map(([, later]) => ({ room: later, isLater: true })),
    ...pairs.filter(([, later]) => later === room).map(([first]) => ({ room: first, isLater: false })),
  ].filter((partner) => partner.room !== room);
}

function stateRoom(problem: ReleaseProblem, index: number): StateRoom {
  const room = problem.rooms[index];
  if (!room) throw new RangeError(`no room ${index}`);
  const given = problem.products.flatMap((_, product) =>
    room.cartonsABin.some((week) => (week[product] ?? 0) > 0) ? [product] : [],
  );
  const cartons = room.cartonsABin.flatMap((week) => given.map((product) => week[product] ?? 0));
  return {
    bins: room.bins,
    weeksToEmpty: room.weeksToEmpty,
    risk: Float64Array.from(room.riskCost, (_, week) => openingCost(room, week) - openingCost(room, null)),
    partners: partnersOf(problem, index),
    products: Int32Array.from(given),
    cartons: Float64Array.from(cartons),
  };
}
