import type { ReleaseProblem } from './types';

/** Below this, cartons are rounding. */
const NOTHING = 1e-9;

/** Cartons that one demand wants in one week. */
interface Slot {
  readonly demand: number;
  readonly week: number;
  readonly cartons: number;
  /** What a carton sold here is worth over processing it, before waiting. */
  readonly worth: number;
}

/**
 * The best sales of one product for given cartons, exactly, where the search uses a rule. A carton packed in week s and
 * sold in week t is worth `worth - waiting (t - s)`, which is the sum of a part of the week it is packed in and a part
 * of the sale; so handing a sale on from one week's cartons to another's changes the value by the weeks between them
 * alone, and the best use of one more carton is the best that can be reached by handing on. Adding cartons one week
 * after the other by best use gives the optimum, since each step starts from one.
 */
export class ProductSales {
  private readonly slots: readonly Slot[];
  private readonly weeks: number;
  private readonly waiting: number;
  /** Week and worth of each slot, side by side for the inner loop. */
  private readonly weekOf: Int32Array;
  private readonly worthOf: Float64Array;
  /** Ages at which a carton may be sold, 0 among them. */
  private readonly ages: number;
  /** Slots that cartons packed in a week can serve at a gain. */
  private readonly reach: readonly Int32Array[];
  /** Weeks whose cartons can serve a slot. */
  private readonly from: readonly Int32Array[];
  /** First slot of each week, and their number behind the last. */
  private readonly firstSlot: Int32Array;
  private readonly wanted: Float64Array;
  private readonly now: State;
  private readonly held: State[] = [];
  private heldSupply = new Float64Array(0);
  private readonly seen: Int32Array;
  private readonly viaSlot: Int32Array;
  private readonly viaWeek: Int32Array;
  private readonly queue: Int32Array;
  private round = 0;

  constructor(problem: ReleaseProblem, product: number) {
    this.weeks = problem.weeks;
    this.waiting = problem.costOfWaiting;
    this.ages = problem.packedWaitWeeks + 1;
    this.slots = slotsOf(problem, product);
    this.weekOf = Int32Array.from(this.slots, ({ week }) => week);
    this.worthOf = Float64Array.from(this.slots, ({ worth }) => worth);
    this.firstSlot = Int32Array.from({ length: this.weeks + 1 }, (_, week) =>
      this.slots.reduce((before, slot) => before + (slot.week < week ? 1 : 0), 0),
    );
    this.reach = Array.from({ length: this.weeks }, (_, packed) =>
      Int32Array.from(
        this.slots.flatMap(({ week, worth }, slot) => {
          const waits = week - packed;
          return waits >= 0 && waits < this.ages && worth - this.waiting * waits > 0 ? [slot] : [];
        }),
      ),
    );
    const from: number[][] = this.slots.map(() => []);
    this.reach.forEach((slots, week) => {
      for (const slot of slots) from[slot]?.push(week);
    });
    this.from = from.map((list) => Int32Array.from(list));
    this.wanted = Float64Array.from(this.slots, ({ cartons }) => cartons);
    this.now = {
      flow: new Float64Array(this.slots.length * this.ages),
      free: Float64Array.from(this.slots, ({ cartons }) => cartons),
      left: new Float64Array(this.weeks),
      gain: 0,
    };
    this.seen = new Int32Array(this.weeks);
    this.viaSlot = new Int32Array(this.weeks);
    this.viaWeek = new Int32Array(this.weeks);
    this.queue = new Int32Array(this.weeks);
  }

  /** Customers want so many times the cartons of the problem from now on, by demand. */
  want(factors: ArrayLike<number>): void {
    this.slots.forEach(({ demand, cartons }, slot) => {
      this.wanted[slot] = cartons * (factors[demand] ?? 1);
    });
    this.held.length = 0;
  }

  /**
   * Money over processing all of it. Remembers how it came about, so that `sell` of nearly the same cartons need only
   * go over the weeks around those that differ.
   */
  hold(supply: ArrayLike<number>): number {
    this.held.length = 0;
    this.heldSupply = Float64Array.from({ length: this.weeks }, (_, week) => supply[week] ?? 0);
    this.start();
    for (let week = 0; week < this.weeks; week++) {
      this.held.push(copyOf(this.now));
      this.add(week, supply[week] ?? 0);
    }
    this.held.push(copyOf(this.now));
    return this.now.gain;
  }

  /** Money over processing all of it. What is sold can be asked for until the next call. */
  sell(supply: ArrayLike<number>): number {
    const { weeks, held, heldSupply, now } = this;
    let [first, last] = [0, weeks];
    if (held.length > 0) {
      while (first < weeks && supply[first] === heldSupply[first]) first += 1;
      while (last > first && supply[last - 1] === heldSupply[last - 1]) last -= 1;
      restore(now, held[first] as State);
    } else this.start();
    for (let week = first; week < weeks; week++) {
      const before = held[week];
      if (before && week >= last && this.isCut(now, week) && this.isCut(before, week)) {
        this.takeRest(before, week);
        break;
      }
      this.add(week, supply[week] ?? 0);
    }
    return now.gain;
  }

  /** What one more carton packed in the week would bring over processing it; of the values that fit, the lowest. */
  marginal(week: number): number {
    return Math.max(0, this.bestUse(week).gain);
  }

  /** Adds the cartons sold to `into[demand][week]`. */
  addSold(into: readonly Float64Array[]): void {
    this.slots.forEach(({ demand, week }, slot) => {
      const row = into[demand];
      if (row) row[week] = (row[week] ?? 0) + (this.wanted[slot] as number) - (this.now.free[slot] as number);
    });
  }

  private start(): void {
    const { now } = this;
    now.flow.fill(0);
    now.left.fill(0);
    now.gain = 0;
    now.free.set(this.wanted);
  }

  private add(week: number, cartons: number): void {
    const { now } = this;
    now.left[week] = cartons;
    while ((now.left[week] as number) > NOTHING) {
      const use = this.bestUse(week);
      if (use.gain <= 0) break;
      now.gain += use.gain * this.hand(week, use);
    }
  }

  /** True where nothing packed before the week is sold in it or later: what follows cannot touch what went before. */
  private isCut({ flow }: State, week: number): boolean {
    const end = this.firstSlot[Math.min(this.weeks, week + this.ages - 1)] as number;
    for (let slot = this.firstSlot[week] as number; slot < end; slot++) {
      const age = (this.weekOf[slot] as number) - week;
      for (let older = age + 1; older < this.ages; older++)
        if ((flow[slot * this.ages + older] as number) > NOTHING) return false;
    }
    return true;
  }

  /** Takes the weeks from here on as they came out for the cartons held. */
  private takeRest(before: State, week: number): void {
    const { now, ages } = this;
    const end = this.held[this.weeks] as State;
    const slot = this.firstSlot[week] as number;
    now.flow.set(end.flow.subarray(slot * ages), slot * ages);
    now.free.set(end.free.subarray(slot), slot);
    now.left.set(end.left.subarray(week), week);
    now.gain += end.gain - before.gain;
  }

  /** The sale, or the earlier week's cartons that then go to processing, which brings most. */
  private bestUse(start: number): Use {
    const { queue, seen, use, weekOf, worthOf, waiting, ages } = this;
    const round = ++this.round;
    const { flow, free } = this.now;
    let [head, tail] = [0, 1];
    queue[0] = start;
    seen[start] = round;
    use.gain = 0;
    use.slot = -1;
    use.week = start;
    while (head < tail) {
      const week = queue[head++] as number;
      // A sale handed over by an older carton, which is processed instead: its waiting is saved.
      const saved = waiting * (start - week);
      if (saved > use.gain + NOTHING) take(use, saved, -1, week);
      const reach = this.reach[week] as Int32Array;
      for (let index = 0; index < reach.length; index++) {
        const slot = reach[index] as number;
        const sold = weekOf[slot] as number;
        if ((free[slot] as number) > NOTHING) {
          const gain = (worthOf[slot] as number) - waiting * (sold - start);
          if (gain > use.gain + NOTHING) take(use, gain, slot, week);
        }
        const from = this.from[slot] as Int32Array;
        for (let at = 0; at < from.length; at++) {
          const other = from[at] as number;
          if (seen[other] === round || (flow[slot * ages + sold - other] as number) <= NOTHING) continue;
          seen[other] = round;
          this.viaSlot[other] = slot;
          this.viaWeek[other] = week;
          queue[tail++] = other;
        }
      }
    }
    return use;
  }

  /** Carries out a use for as many cartons as it holds for; returns how many. */
  private hand(start: number, { slot, week: end }: Use): number {
    const { flow, free, left } = this.now;
    const at = (sale: number, week: number) => sale * this.ages + (this.weekOf[sale] as number) - week;
    let cartons = left[start] as number;
    if (slot >= 0) cartons = Math.min(cartons, free[slot] as number);
    for (let week = end; week !== start; week = this.viaWeek[week] as number)
      cartons = Math.min(cartons, flow[at(this.viaSlot[week] as number, week)] as number);
    const add = (sale: number, week: number, amount: number) => {
      flow[at(sale, week)] = (flow[at(sale, week)] as number) + amount;
    };
    if (slot >= 0) {
      add(slot, end, cartons);
      free[slot] = (free[slot] as number) - cartons;
    } else left[end] = (left[end] as number) + cartons;
    for (let week = end; week !== start; week = this.viaWeek[week] as number) {
      add(this.viaSlot[week] as number, week, -cartons);
      add(this.viaSlot[week] as number, this.viaWeek[week] as number, cartons);
    }
    left[start] = (left[start] as number) - cartons;
    return cartons;
  }

  private readonly use: Use = { gain: 0, slot: -1, week: 0 };
}

/** How cartons are sold so far. */
interface State {
  /** Cartons sold to a slot, by age: `[slot * ages + weeks waited]`. */
  readonly flow: Float64Array;
  /** Cartons that each slot still wants. */
  readonly free: Float64Array;
  /** Cartons of each week that are not sold. */
  readonly left: Float64Array;
  gain: number;
}

interface Use {
  gain: number;
  slot: number;
  week: number;
}

function take(use: Use, gain: number, slot: number, week: number): void {
  use.gain = gain;
  use.slot = slot;
  use.week = week;
}

function copyOf({ flow, free, left, gain }: State): State {
  return { flow: flow.slice(), free: free.slice(), left: left.slice(), gain };
}

function restore(into: State, from: State): void {
  into.flow.set(from.flow);
  into.free.set(from.free);
  into.left.set(from.left);
  into.gain = from.gain;
}

function slotsOf(problem: ReleaseProblem, product: number): Slot[] {
  return problem.demands
    .flatMap((one, demand) => {
      const worth = one.price + one.priceOfShortage - problem.processingPrice;
      if (one.product !== product || worth <= 0) return [];
      return one.cartons.flatMap((cartons, week) => (cartons > 0 ? [{ demand, week, cartons, worth }] : []));
    })
    .sort((a, b) => a.week - b.week || b.worth - a.worth || a.demand - b.demand);
}
