import { Unevenness } from './even-work';
import { worthUnpacked } from './from-field';
import { betterOrder, type Market, marketOf } from './market';
import { openingCost } from './opening-cost';
import { type StateRoom, stateRoom } from './state-room';
import type { ReleaseProblem } from './types';

/** Opening week of a room left closed. */
export const CLOSED = -1;

/** Bins are counted as packed to this. */
const BIN_TOLERANCE = 1e-7;

/** A change to try: the room opened in `week`, its bins over the weeks from there. */
export interface Placement {
  readonly room: number;
  readonly week: number;
  /** Bins packed in each week from `week` on; ignored where the room stays closed. */
  readonly bins: Float64Array;
}

/**
 * A schedule under change. Holds, for the current placements, the cartons of each product by week and their value;
 * a change re-evaluates only the pools of products it touches.
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
  /** Of these, bins it has left on the days that a room in its last week of emptying may still use. */
  readonly freeLast: Float64Array;
  readonly open: Int32Array;
  /** Scratch of `spreadBins`: bins that may be packed in each week of an emptying. */
  readonly most: Float64Array;
  private readonly rooms: readonly StateRoom[];
  /** Cartons of each product by week. */
  private readonly supply: readonly Float64Array[];
  /** Money of each pool. */
  private readonly values: Float64Array;
  private readonly trial: readonly Float64Array[];
  private readonly trialValues: Float64Array;
  private readonly unevenness: Unevenness;
  private readonly busy: Float64Array;
  private readonly trialBusy: Float64Array;
  private uneven = 0;
  private trialUneven = 0;
  private readonly used: readonly Float64Array[];
  private readonly touched: Int32Array;
  private touchedCount = 0;
  private readonly marked: Uint8Array;
  private gain = 0;

  constructor(readonly problem: ReleaseProblem) {
    const { weeks } = problem;
    const rows = () => problem.products.map(() => new Float64Array(weeks));
    this.market = marketOf(problem);
    this.rooms = problem.rooms.map((_, room) => stateRoom(problem, room, this.market));
    this.unevenness = new Unevenness(problem);
    this.span = Math.max(1, ...this.rooms.map((room) => room.weeksToEmpty));
    this.most = new Float64Array(this.span);
    this.opens = new Int32Array(this.rooms.length).fill(CLOSED);
    this.packed = new Float64Array(this.rooms.length * this.span);
    this.free = Float64Array.from(problem.packingBins);
    this.freeLast = Float64Array.from(problem.lastWeekBins ?? problem.packingBins);
    this.busy = new Float64Array(weeks);
    this.trialBusy = new Float64Array(weeks);
    this.open = new Int32Array(weeks);
    this.supply = rows();
    this.values = new Float64Array(this.market.pools.length);
    this.trial = rows();
    this.trialValues = new Float64Array(this.market.pools.length);
    this.used = rows();
    this.touched = new Int32Array(this.market.pools.length);
    this.marked = new Uint8Array(this.market.pools.length);
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
    if (limit === null || this.isFromField(room)) return true;
    const end = week + this.emptyingWeeks(room, week);
    for (let at = week; at < end; at++) if ((this.open[at] as number) >= limit) return false;
    return true;
  }

  /** True for fruit that is in no room and need not be packed whole. */
  isFromField(room: number): boolean {
    return (this.rooms[room] as StateRoom).mostBins !== undefined;
  }

  /** Change of value if the placements were made. `commit` makes them; doing nothing forgets them. */
  try(placements: readonly Placement[]): number {
    this.touchedCount = 0;
    let change = 0;
    for (const placement of placements) {
      const now = this.opens[placement.room] as number;
      const { risk, worthUnpacked: unpacked } = this.rooms[placement.room] as StateRoom;
      if (now !== CLOSED) {
        change += risk[now] as number;
        if (unpacked > 0)
          change += unpacked * this.binsOf(placement.room, now, this.packed, placement.room * this.span);
        this.addTrial(placement.room, now, this.packed, placement.room * this.span, -1);
      }
      if (placement.week !== CLOSED) {
        change -= risk[placement.week] as number;
        if (unpacked > 0) change -= unpacked * this.binsOf(placement.room, placement.week, placement.bins, 0);
        this.addTrial(placement.room, placement.week, placement.bins, 0, 1);
      }
    }
    for (let index = 0; index < this.touchedCount; index++) {
      const pool = this.touched[index] as number;
      this.marked[pool] = 0;
      const value = this.valueOf(pool, this.trial);
      this.trialValues[pool] = value;
      change += value - (this.values[pool] as number);
    }
    return this.unevenness.price > 0 ? change - this.moreUneven(placements) : change;
  }

  /** Makes the placements last tried; their rooms must be lifted. `change` is what `try` returned. */
  commit(placements: readonly Placement[], change: number): void {
    for (let index = 0; index < this.touchedCount; index++) {
      const pool = this.touched[index] as number;
      this.copyPool(pool, this.trial, this.supply);
      this.values[pool] = this.trialValues[pool] as number;
    }
    if (this.unevenness.price > 0) {
      this.busy.set(this.trialBusy);
      this.uneven = this.trialUneven;
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
    this.freeLast.set(this.problem.lastWeekBins ?? this.problem.packingBins);
    this.busy.fill(0);
    this.open.fill(0);
    for (const row of this.trial) row.fill(0);
    for (const row of this.supply) row.fill(0);
    this.gain = 0;
    for (let room = 0; room < this.rooms.length; room++) {
      const week = this.opens[room] as number;
      if (week === CLOSED) continue;
      this.count(room, 1);
      this.addTrial(room, week, this.packed, room * this.span, 1);
      this.addBusy(this.busy, room, week, this.packed, room * this.span, 1);
      const { risk, worthUnpacked: unpacked } = this.rooms[room] as StateRoom;
      this.gain -= (risk[week] as number) + unpacked * this.binsOf(room, week, this.packed, room * this.span);
    }
    // addTrial starts each product from `supply`, which is empty here, so `trial` now holds all cartons.
    this.supply.forEach((row, product) => {
      row.set(this.trial[product] as Float64Array);
    });
    this.marked.fill(0);
    this.touchedCount = 0;
    for (let pool = 0; pool < this.values.length; pool++) {
      const value = this.valueOf(pool, this.supply);
      this.values[pool] = value;
      this.gain += value;
    }
    this.uneven = this.unevenness.cost(this.busy);
    this.gain -= this.uneven;
  }

  private binsOf(room: number, week: number, bins: Float64Array, offset: number): number {
    const count = this.emptyingWeeks(room, week);
    let sum = 0;
    for (let since = 0; since < count; since++) sum += bins[offset + since] as number;
    return sum;
  }

  private valueOf(pool: number, cartons: readonly Float64Array[]): number {
    const products = this.market.pools[pool] as readonly number[];
    let total = 0;
    for (let index = 0; index < products.length; index++) {
      const row = cartons[products[index] as number] as Float64Array;
      for (let week = 0; week < row.length; week++) total += row[week] as number;
    }
    return total * this.market.processingPrice + betterOrder(this.market, pool, cartons, this.used).gain;
  }

  private copyPool(pool: number, from: readonly Float64Array[], into: readonly Float64Array[]): void {
    const products = this.market.pools[pool] as readonly number[];
    for (let index = 0; index < products.length; index++) {
      const product = products[index] as number;
      (into[product] as Float64Array).set(from[product] as Float64Array);
    }
  }

  /** What uneven work would cost more, were the placements made. */
  private moreUneven(placements: readonly Placement[]): number {
    this.trialBusy.set(this.busy);
    for (const { room, week, bins } of placements) {
      const now = this.opens[room] as number;
      if (now !== CLOSED) this.addBusy(this.trialBusy, room, now, this.packed, room * this.span, -1);
      if (week !== CLOSED) this.addBusy(this.trialBusy, room, week, bins, 0, 1);
    }
    this.trialUneven = this.unevenness.cost(this.trialBusy);
    return this.trialUneven - this.uneven;
  }

  private addBusy(
    into: Float64Array,
    room: number,
    week: number,
    bins: Float64Array,
    offset: number,
    sign: number,
  ): void {
    const count = this.emptyingWeeks(room, week);
    for (let since = 0; since < count; since++)
      into[week + since] = (into[week + since] as number) + sign * (bins[offset + since] as number);
  }

  private addTrial(room: number, week: number, bins: Float64Array, offset: number, sign: number): void {
    const { products, pools, cartons } = this.rooms[room] as StateRoom;
    const count = this.emptyingWeeks(room, week);
    for (let index = 0; index < pools.length; index++) this.touch(pools[index] as number);
    for (let index = 0; index < products.length; index++) {
      const row = this.trial[products[index] as number] as Float64Array;
      for (let since = 0; since < count; since++) {
        const at = week + since;
        const more =
          sign * (bins[offset + since] as number) * (cartons[at * products.length + index] as number);
        row[at] = (row[at] as number) + more;
      }
    }
  }

  /** Begins a trial of a pool from the cartons there are. */
  private touch(pool: number): void {
    if (this.marked[pool] !== 0) return;
    this.marked[pool] = 1;
    this.touched[this.touchedCount++] = pool;
    this.copyPool(pool, this.supply, this.trial);
  }

  /** Bins the packhouse has left for a room opened in `week`, so many weeks later. */
  freeSince(room: number, week: number, since: number): number {
    const free = this.free[week + since] as number;
    const { mostBins } = this.rooms[room] as StateRoom;
    if (mostBins) return Math.min(free, mostBins[since] ?? 0);
    if (since !== (this.rooms[room] as StateRoom).weeksToEmpty - 1) return free;
    return Math.min(free, this.freeLast[week + since] as number);
  }

  /** Takes bins that a placement needs from what the packhouse has left, or gives them back. */
  reserve({ room, week, bins }: Placement, sign: number): void {
    this.take(room, week, bins, 0, sign);
  }

  private count(room: number, sign: number): void {
    const week = this.opens[room] as number;
    if (week !== CLOSED) this.take(room, week, this.packed, room * this.span, sign);
  }

  private take(room: number, week: number, bins: Float64Array, offset: number, sign: number): void {
    const { weeksToEmpty, mostBins } = this.rooms[room] as StateRoom;
    const count = this.emptyingWeeks(room, week);
    for (let since = 0; since < count; since++) {
      const now = week + since;
      const taken = sign * (bins[offset + since] as number);
      this.free[now] = (this.free[now] as number) - taken;
      if (mostBins) continue;
      if (since === weeksToEmpty - 1) this.freeLast[now] = (this.freeLast[now] as number) - taken;
      this.open[now] = (this.open[now] as number) + sign;
    }
  }
}

/**
 * Spreads a room's bins over the weeks from `week` in the given proportions, never more in a week than is free; what
 * does not fit goes to the weeks that still have room, the earliest first. False where the bins do not fit at all. Of
 * fruit from the field only the given share is packed, and less where that does not fit.
 */
export function spreadBins(
  state: SeasonState,
  room: number,
  weights: ArrayLike<number>,
  week: number,
  into: Float64Array,
  share = 1,
): boolean {
  const isFromField = state.isFromField(room);
  const bins = (state.problem.rooms[room]?.bins ?? 0) * (isFromField ? share : 1);
  const count = state.emptyingWeeks(room, week);
  const most = state.most;
  let total = 0;
  for (let since = 0; since < count; since++) {
    total += weights[since] as number;
    most[since] = Math.max(0, state.freeSince(room, week, since));
  }
  let left = bins;
  for (let since = 0; since < into.length; since++) {
    const taken =
      total > 0 && since < count
        ? Math.min(most[since] as number, (bins * (weights[since] as number)) / total)
        : 0;
    into[since] = taken;
    left -= taken;
  }
  for (let since = 0; since < count && left > 0; since++) {
    const more = Math.min(left, Math.max(0, (most[since] as number) - (into[since] as number)));
    into[since] = (into[since] as number) + more;
    left -= more;
  }
  return isFromField || left <= BIN_TOLERANCE * Math.max(1, bins);
}

/** The cost of opening nothing at all and packing nothing from the field: what values of a state leave out. */
export function costOfNothing(problem: ReleaseProblem): number {
  const closed = problem.rooms.reduce(
    (sum, room) => sum + openingCost(room, null) - room.bins * worthUnpacked(problem, room),
    0,
  );
  return marketOf(problem).shortageOfAll + closed;
}
