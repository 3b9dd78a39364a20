import { sourcesOf } from './sources';
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
  /** Products of the pool that may be sold here. */
  readonly from: readonly number[];
}

/**
 * The best sales of one pool of products for given cartons, exactly, where the search uses a rule. A carton packed in week s and
 * sold in week t is worth `worth - waiting (t - s)`, which is the sum of a part of the week it is packed in and a part
 * of the sale; so handing a sale on from one week's cartons to another's changes the value by the weeks between them
 * alone, and the best use of one more carton is the best that can be reached by handing on. Adding cartons one week
 * after the other by best use gives the optimum, since each step starts from one.
 *
 * The cartons of a product packed in a week are a batch: `week * kinds + place of the product in the pool`.
 */
export class PoolSales {
  private readonly slots: readonly Slot[];
  private readonly weeks: number;
  private readonly waiting: number;
  /** Week and worth of each slot, side by side for the inner loop. */
  private readonly weekOf: Int32Array;
  private readonly worthOf: Float64Array;
  /** Ages at which a carton may be sold, 0 among them. */
  private readonly ages: number;
  /** Products of the pool. */
  private readonly kinds: number;
  /** Week in which each batch is packed. */
  private readonly packedIn: Int32Array;
  /** Slots that a batch can serve at a gain. */
  private readonly reach: readonly Int32Array[];
  /** Batches that can serve a slot. */
  private readonly from: readonly Int32Array[];
  /** Where in `flow` each of them stands. */
  private readonly flowFrom: readonly Int32Array[];
  /** First slot of each week, and their number behind the last. */
  private readonly firstSlot: Int32Array;
  private readonly wanted: Float64Array;
  private readonly now: State;
  private readonly held: State[] = [];
  private readonly supply: Float64Array;
  private heldSupply = new Float64Array(0);
  private readonly seen: Int32Array;
  private readonly seenSlot: Int32Array;
  private readonly viaSlot: Int32Array;
  private readonly viaBatch: Int32Array;
  private readonly queue: Int32Array;
  private round = 0;

  constructor(problem: ReleaseProblem, pool: readonly number[]) {
    this.weeks = problem.weeks;
    this.waiting = problem.costOfWaiting;
    this.ages = problem.packedWaitWeeks + 1;
    this.kinds = pool.length;
    this.slots = slotsOf(problem, pool);
    this.weekOf = Int32Array.from(this.slots, ({ week }) => week);
    this.worthOf = Float64Array.from(this.slots, ({ worth }) => worth);
    this.firstSlot = Int32Array.from({ length: this.weeks + 1 }, (_, week) =>
      this.slots.reduce((before, slot) => before + (slot.week < week ? 1 : 0), 0),
    );
    const batches = this.weeks * this.kinds;
    this.packedIn = Int32Array.from({ length: batches }, (_, batch) => Math.floor(batch / this.kinds));
    this.reach = Array.from({ length: batches }, (_, batch) =>
      Int32Array.from(
        this.slots.flatMap(({ week, worth, from }, slot) => {
          const waits = week - (this.packedIn[batch] as number);
          const may = waits >= 0 && waits < this.ages && worth - this.waiting * waits > 0;
          return may && from.includes(batch % this.kinds) ? [slot] : [];
        }),
      ),
    );
    const from: number[][] = this.slots.map(() => []);
    this.reach.forEach((slots, batch) => {
      for (const slot of slots) from[slot]?.push(batch);
    });
    this.from = from.map((list) => Int32Array.from(list));
    this.flowFrom = from.map((list, slot) => Int32Array.from(list, (batch) => this.at(slot, batch)));
    this.wanted = Float64Array.from(this.slots, ({ cartons }) => cartons);
    this.now = {
      flow: new Float64Array(this.slots.length * this.ages * this.kinds),
      free: Float64Array.from(this.slots, ({ cartons }) => cartons),
      left: new Float64Array(batches),
      gain: 0,
    };
    this.supply = new Float64Array(batches);
    this.seen = new Int32Array(batches);
    this.seenSlot = new Int32Array(this.slots.length);
    this.viaSlot = new Int32Array(batches);
    this.viaBatch = new Int32Array(batches);
    this.queue = new Int32Array(batches);
  }

  /** Customers want so many times the cartons of the problem from now on, by demand. */
  want(factors: ArrayLike<number>): void {
    this.slots.forEach(({ demand, cartons }, slot) => {
      this.wanted[slot] = cartons * (factors[demand] ?? 1);
    });
    this.held.length = 0;
  }

  /**
   * Money over processing all of it; cartons of each product of the pool by week. Remembers how it came about, so that
   * `sell` of nearly the same cartons need only go over the weeks around those that differ.
   */
  hold(cartons: readonly ArrayLike<number>[]): number {
    this.held.length = 0;
    this.read(cartons);
    this.heldSupply = this.supply.slice();
    this.start();
    for (let week = 0; week < this.weeks; week++) {
      this.held.push(copyOf(this.now));
      this.add(week);
    }
    this.held.push(copyOf(this.now));
    return this.now.gain;
  }

  /** Money over processing all of it. What is sold can be asked for until the next call. */
  sell(cartons: readonly ArrayLike<number>[]): number {
    const { weeks, held, now } = this;
    this.read(cartons);
    let [first, last] = [0, weeks];
    if (held.length > 0) {
      while (first < weeks && this.isAsHeld(first)) first += 1;
      while (last > first && this.isAsHeld(last - 1)) last -= 1;
      restore(now, held[first] as State);
    } else this.start();
    for (let week = first; week < weeks; week++) {
      const before = held[week];
      if (before && week >= last && this.isCut(now, week) && this.isCut(before, week)) {
        this.takeRest(before, week);
        break;
      }
      this.add(week);
    }
    return now.gain;
  }

  /**
   * What one more carton packed in the week would bring over processing it; of the values that fit, the lowest. `kind`
   * is the product's place in the pool.
   */
  marginal(week: number, kind = 0): number {
    return Math.max(0, this.bestUse(week * this.kinds + kind).gain);
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

  private read(cartons: readonly ArrayLike<number>[]): void {
    const { kinds, supply } = this;
    for (let kind = 0; kind < kinds; kind++) {
      const row = cartons[kind];
      for (let week = 0; week < this.weeks; week++) supply[week * kinds + kind] = row?.[week] ?? 0;
    }
  }

  private isAsHeld(week: number): boolean {
    for (let batch = week * this.kinds; batch < (week + 1) * this.kinds; batch++)
      if (this.supply[batch] !== this.heldSupply[batch]) return false;
    return true;
  }

  private add(week: number): void {
    const { now } = this;
    for (let batch = week * this.kinds; batch < (week + 1) * this.kinds; batch++) {
      now.left[batch] = this.supply[batch] as number;
      while ((now.left[batch] as number) > NOTHING) {
        const use = this.bestUse(batch);
        if (use.gain <= 0) break;
        now.gain += use.gain * this.hand(batch, use);
      }
    }
  }

  /** Place in `flow` of what a slot takes of a batch. */
  private at(slot: number, batch: number): number {
    const { kinds } = this;
    const packed = this.packedIn[batch] as number;
    const age = (this.weekOf[slot] as number) - packed;
    return (slot * this.ages + age) * kinds + batch - packed * kinds;
  }

  /** True where nothing packed before the week is sold in it or later: what follows cannot touch what went before. */
  private isCut({ flow }: State, week: number): boolean {
    const end = this.firstSlot[Math.min(this.weeks, week + this.ages - 1)] as number;
    for (let slot = this.firstSlot[week] as number; slot < end; slot++) {
      const age = (this.weekOf[slot] as number) - week;
      const last = (slot + 1) * this.ages * this.kinds;
      for (let at = (slot * this.ages + age + 1) * this.kinds; at < last; at++)
        if ((flow[at] as number) > NOTHING) return false;
    }
    return true;
  }

  /** Takes the weeks from here on as they came out for the cartons held. */
  private takeRest(before: State, week: number): void {
    const { now, ages, kinds } = this;
    const end = this.held[this.weeks] as State;
    const slot = this.firstSlot[week] as number;
    now.flow.set(end.flow.subarray(slot * ages * kinds), slot * ages * kinds);
    now.free.set(end.free.subarray(slot), slot);
    now.left.set(end.left.subarray(week * kinds), week * kinds);
    now.gain += end.gain - before.gain;
  }

  /** The sale, or the earlier batch that then goes to processing, which brings most. */
  private bestUse(start: number): Use {
    const { queue, seen, seenSlot, use, weekOf, worthOf, waiting, packedIn } = this;
    const round = ++this.round;
    const { flow, free } = this.now;
    const startWeek = packedIn[start] as number;
    let [head, tail] = [0, 1];
    queue[0] = start;
    seen[start] = round;
    use.gain = 0;
    use.slot = -1;
    use.batch = start;
    while (head < tail) {
      const batch = queue[head++] as number;
      // A sale handed over by an older carton, which is processed instead: its waiting is saved.
      const saved = waiting * (startWeek - (packedIn[batch] as number));
      if (saved > use.gain + NOTHING) take(use, saved, -1, batch);
      const reach = this.reach[batch] as Int32Array;
      for (let index = 0; index < reach.length; index++) {
        const slot = reach[index] as number;
        // What it is worth and whom it takes from is the same for every batch that reaches it.
        if (seenSlot[slot] === round) continue;
        seenSlot[slot] = round;
        if ((free[slot] as number) > NOTHING) {
          const gain = (worthOf[slot] as number) - waiting * ((weekOf[slot] as number) - startWeek);
          if (gain > use.gain + NOTHING) take(use, gain, slot, batch);
        }
        const from = this.from[slot] as Int32Array;
        const flowFrom = this.flowFrom[slot] as Int32Array;
        for (let at = 0; at < from.length; at++) {
          const other = from[at] as number;
          if ((flow[flowFrom[at] as number] as number) <= NOTHING || seen[other] === round) continue;
          seen[other] = round;
          this.viaSlot[other] = slot;
          this.viaBatch[other] = batch;
          queue[tail++] = other;
        }
      }
    }
    return use;
  }

  /** Carries out a use for as many cartons as it holds for; returns how many. */
  private hand(start: number, { slot, batch: end }: Use): number {
    const { flow, free, left } = this.now;
    let cartons = left[start] as number;
    if (slot >= 0) cartons = Math.min(cartons, free[slot] as number);
    for (let batch = end; batch !== start; batch = this.viaBatch[batch] as number)
      cartons = Math.min(cartons, flow[this.at(this.viaSlot[batch] as number, batch)] as number);
    const add = (sale: number, batch: number, amount: number) => {
      const at = this.at(sale, batch);
      flow[at] = (flow[at] as number) + amount;
    };
    if (slot >= 0) {
      add(slot, end, cartons);
      free[slot] = (free[slot] as number) - cartons;
    } else left[end] = (left[end] as number) + cartons;
    for (let batch = end; batch !== start; batch = this.viaBatch[batch] as number) {
      add(this.viaSlot[batch] as number, batch, -cartons);
      add(this.viaSlot[batch] as number, this.viaBatch[batch] as number, cartons);
    }
    left[start] = (left[start] as number) - cartons;
    return cartons;
  }

  private readonly use: Use = { gain: 0, slot: -1, batch: 0 };
}

/** How cartons are sold so far. */
interface State {
  /** Cartons sold to a slot, by age and product: `[(slot * ages + weeks waited) * kinds + kind]`. */
  readonly flow: Float64Array;
  /** Cartons that each slot still wants. */
  readonly free: Float64Array;
  /** Cartons of each batch that are not sold. */
  readonly left: Float64Array;
  gain: number;
}

interface Use {
  gain: number;
  slot: number;
  batch: number;
}

function take(use: Use, gain: number, slot: number, batch: number): void {
  use.gain = gain;
  use.slot = slot;
  use.batch = batch;
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

function slotsOf(problem: ReleaseProblem, pool: readonly number[]): Slot[] {
  return problem.demands
    .flatMap((one, demand) => {
      const worth = one.price + one.priceOfShortage - problem.processingPrice;
      const sources = sourcesOf(problem, one).filter(({ product }) => pool.includes(product));
      if (sources.length === 0 || worth <= 0) return [];
      return one.cartons.flatMap((cartons, week) => {
        const from = sources.flatMap(({ product, until }) => (week <= until ? [pool.indexOf(product)] : []));
        return cartons > 0 && from.length > 0 ? [{ demand, week, cartons, worth, from }] : [];
      });
    })
    .sort((a, b) => a.week - b.week || b.worth - a.worth || a.demand - b.demand);
}
