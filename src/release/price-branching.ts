import { Climb } from './ascent';
import type { PriceTree } from './price-tree';
import type { PricedPart } from './priced-parts';
import { pricesIn } from './shared-prices';

/** Turns of a case's ascent, which starts at the prices of the case it comes from. */
const TURNS = 40;
const FIRST_STEP = 0.5;
/** How far below a case's bound its halves may come at best, as a share of the part's: sets the length of steps. */
const TO_GO = 0.007;
/** How much of a turn's choices goes into the shares. */
const OF_LAST_TURN = 0.06;
/** Weeks spread less than this are one week. */
const SPREAD = 0.02;

/** A case that is not taken apart yet. */
interface OpenCase {
  /** Ways that each room may take: from, up to but not including; what it brings closed. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly closed: Float64Array;
  /** Prices of places in the part's demands, as a leaf has them. */
  readonly prices: Float64Array;
  readonly bound: number;
  readonly likely: Float64Array;
  readonly put: (tree: PriceTree) => void;
}

/**
 * Branch and bound over the opening weeks of a part of the season, each case bounded by an ascent of a few turns. Counts
 * the slots it looks at and knows no clock, so that it repeats.
 */
export class PriceBranching {
  private readonly open: OpenCase[] = [];
  private readonly toGo: number;
  private readonly flat: Float64Array;
  private readonly climb: Climb;
  private root: PriceTree = { kind: 'leaf', wanted: new Float64Array(0) };
  /** True where the case with the highest bound cannot be taken apart. */
  done = false;
  cases = 0;

  constructor(
    private readonly part: PricedPart,
    /** All prices, as the part was taken apart at them. */
    flat: Float64Array,
  ) {
    const { season, shared } = part;
    this.flat = flat.slice();
    this.climb = new Climb(season, shared, this.flat, 0, FIRST_STEP);
    this.climb.turn();
    this.toGo = TO_GO * Math.abs(this.climb.lowest);
    const from = season.firstWay.slice(0, season.rooms);
    const to = season.firstWay.slice(1);
    const prices = this.pricesOf(flat);
    const first = { from, to, closed: season.closed.slice(), prices, bound: Number.POSITIVE_INFINITY };
    this.add({ ...first, likely: new Float64Array(0), put: (tree) => this.setRoot(tree) });
  }

  /** Slots looked at in all. */
  get slots(): number {
    return this.climb.rooms.looked;
  }

  get bound(): number {
    return this.open.reduce((most, { bound }) => Math.max(most, bound), Number.NEGATIVE_INFINITY);
  }

  get tree(): PriceTree {
    return this.root;
  }

  /** Takes the case with the highest bound apart into two. */
  step(): void {
    const at = this.open.reduce(
      (worst, { bound }, one) => (bound > (this.open[worst]?.bound ?? 0) ? one : worst),
      0,
    );
    const one = this.open[at];
    const split = one && this.splitOf(one);
    if (!one || !split) {
      this.done = true;
      return;
    }
    this.open.splice(at, 1);
    const { room, way } = split;
    const name = this.part.roomOf[room] ?? 0;
    const leaf = leafOf(one);
    if (way === null) {
      const node = { kind: 'open' as const, room: name, closed: leaf, opened: leaf };
      one.put(node);
      const end = one.from[room] ?? 0;
      this.add({ ...one, to: replaced(one.to, room, end), put: (tree) => (node.closed = tree) });
      const closed = replaced(one.closed, room, Number.NEGATIVE_INFINITY);
      this.add({ ...one, closed, put: (tree) => (node.opened = tree) });
      return;
    }
    const week = this.part.season.wayWeek[way] ?? 0;
    const node = { kind: 'weeks' as const, room: name, week, before: leaf, after: leaf };
    one.put(node);
    this.add({ ...one, to: replaced(one.to, room, way), put: (tree) => (node.before = tree) });
    this.add({ ...one, from: replaced(one.from, room, way), put: (tree) => (node.after = tree) });
  }

  private setRoot(tree: PriceTree): void {
    this.root = tree;
  }

  private pricesOf(flat: Float64Array): Float64Array {
    const { demands, season } = this.part;
    const { wanted } = pricesIn(flat, season.weeks);
    const prices = new Float64Array(demands.length * season.weeks);
    demands.forEach((demand, nth) => {
      const at = demand * season.weeks;
      prices.set(wanted.subarray(at, at + season.weeks), nth * season.weeks);
    });
    return prices;
  }

  private priceAt(prices: Float64Array): void {
    const { demands, season } = this.part;
    const { wanted } = pricesIn(this.flat, season.weeks);
    demands.forEach((demand, nth) => {
      wanted.set(prices.subarray(nth * season.weeks, (nth + 1) * season.weeks), demand * season.weeks);
    });
  }

  private add(one: OpenCase): void {
    const { season } = this.part;
    const { climb } = this;
    const goal = (Number.isFinite(one.bound) ? one.bound : this.toGo / TO_GO) - this.toGo;
    this.priceAt(one.prices);
    climb.restart(goal, FIRST_STEP);
    climb.rooms.from.set(one.from);
    climb.rooms.to.set(one.to);
    climb.rooms.closed.set(one.closed);
    const likely = new Float64Array(season.wayWeek.length);
    let turns = 0;
    for (; turns < TURNS && !climb.ended; turns++) {
      climb.turn();
      for (let way = 0; way < likely.length; way++)
        likely[way] = (likely[way] as number) * (1 - OF_LAST_TURN);
      for (const way of climb.rooms.chosen)
        if (way >= 0) likely[way] = (likely[way] as number) + OF_LAST_TURN;
    }
    const sum = 1 - (1 - OF_LAST_TURN) ** turns;
    this.cases += 1;
    const bound = Math.min(one.bound, climb.lowest);
    const prices = climb.lowest <= one.bound ? this.pricesOf(climb.best) : one.prices;
    const added = { ...one, prices, bound, likely: likely.map((share) => share / Math.max(sum, 1e-9)) };
    this.open.push(added);
    one.put(leafOf(added));
  }

  /** The room whose weeks are most spread, and the way to part them at; a null way parts closed from open. */
  private splitOf({ from, to, closed, likely }: OpenCase): { room: number; way: number | null } | undefined {
    const { season } = this.part;
    let best: { room: number; way: number | null; matters: number } | undefined;
    let widest: { room: number; way: number | null; matters: number } | undefined;
    for (let room = 0; room < season.rooms; room++) {
      const [start, end] = [from[room] ?? 0, to[room] ?? 0];
      if (start >= end) continue;
      const bins = season.wayBins[start] ?? 0;
      let [mass, middle] = [0, 0];
      for (let way = start; way < end; way++) {
        mass += likely[way] ?? 0;
        middle += (likely[way] ?? 0) * way;
      }
      middle = mass > 0 ? middle / mass : (start + end - 1) / 2;
      let spread = 0;
      for (let way = start; way < end; way++) spread += (likely[way] ?? 0) * Math.abs(way - middle);
      const mayClose = (closed[room] ?? 0) > Number.NEGATIVE_INFINITY;
      const [spreads, undecided] = [spread * bins, mayClose ? Math.min(mass, 1 - mass) * bins : 0];
      if (end - start > 1 && spread > SPREAD && spreads > (best?.matters ?? 0))
        best = {
          room,
          way: Math.min(end - 1, Math.max(start + 1, Math.floor(middle) + 1)),
          matters: spreads,
        };
      if (undecided > SPREAD * bins && undecided > (best?.matters ?? 0))
        best = { room, way: null, matters: undecided };
      if (end - start > 1 && (end - start) * bins > (widest?.matters ?? 0))
        widest = { room, way: Math.ceil((start + end) / 2), matters: (end - start) * bins };
    }
    return best ?? widest;
  }
}

function leafOf({ prices }: { readonly prices: Float64Array }): PriceTree {
  return { kind: 'leaf', wanted: prices };
}

function replaced<T extends Int32Array | Float64Array>(values: T, at: number, value: number): T {
  const copy = values.slice() as T;
  copy[at] = value;
  return copy;
}
