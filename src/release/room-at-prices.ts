import { PriceFalls } from './price-falls';
import type { PricedSeason } from './priced-season';
import type { Shared, SharedPrices } from './shared-prices';

/** What rooms take of what they share, as they do best at some prices; laid out as the prices are. */
export type Taken = SharedPrices;

/**
 * The best way of each room at given prices. Holds its working memory, so that asking often costs none, and takes no
 * arrays apart in its inner loops: until they are compiled well, which takes half a short solve, each would be an array made.
 */
export class RoomsAtPrices {
  /** Way each room took last, or -1 for closed. */
  readonly chosen: Int32Array;
  /** Ways that each room may take, from and up to but not including, and what it brings closed; may be narrowed. */
  readonly from: Int32Array;
  readonly to: Int32Array;
  readonly closed: Float64Array;
  /** Slots looked at so far: what asking has cost. */
  looked = 0;
  /** Price of a bin in each week of a way's emptying, all prices together. */
  private readonly binPrice: Float64Array;
  private readonly rate = new Float64Array(4096);
  private readonly gain = new Float64Array(4096);
  private readonly since = new Int32Array(4096);
  private readonly order = new Int32Array(4096);
  /** Money for a bin packed in each week, what uneven work adds included. */
  private readonly aBin: Float64Array;
  private readonly falls: PriceFalls;
  /** What each way brought when it was last asked, and the falls of prices that it could gain by until then. */
  private readonly brought: Float64Array;
  private readonly fellBefore: Float64Array;

  constructor(
    private readonly season: PricedSeason,
    private readonly shared: Shared,
  ) {
    this.chosen = new Int32Array(season.rooms).fill(-1);
    this.from = season.firstWay.slice(0, season.rooms);
    this.to = season.firstWay.slice(1);
    this.closed = season.closed.slice();
    this.binPrice = new Float64Array(season.weeks + 1);
    this.aBin = new Float64Array(season.weeks);
    this.falls = new PriceFalls(season, shared);
    this.brought = new Float64Array(season.wayWeek.length).fill(Number.POSITIVE_INFINITY);
    this.fellBefore = new Float64Array(season.wayWeek.length);
  }

  /** The most that all rooms bring at the prices; what they then take is added to `taken`. */
  best(prices: SharedPrices, taken: Taken): number {
    this.see(prices);
    this.falls.note(prices, this.aBin);
    let sum = 0;
    for (let room = 0; room < this.season.rooms; room++) sum += this.bestOf(room, prices, taken);
    return sum;
  }

  /** Takes note of the packing prices: before rooms are asked one by one. */
  see({ packing, pace }: SharedPrices): void {
    const { weekBefore, paceOfBin } = this.shared;
    this.aBin.set(packing);
    for (let week = 0; week < pace.length; week++) {
      const before = weekBefore[week] as number;
      if (before < 0) continue;
      const price = pace[week] as number;
      this.aBin[week] = (this.aBin[week] as number) + price * (paceOfBin[week] as number);
      this.aBin[before] = (this.aBin[before] as number) - price * (paceOfBin[before] as number);
    }
  }

  private bestOf(room: number, prices: SharedPrices, taken: Taken): number {
    const first = this.from[room] as number;
    const end = this.to[room] as number;
    const last = this.chosen[room] as number;
    let best = this.closed[room] as number;
    let way = -1;
    // The way it took last is likely good, and the better the one at hand the fewer others need be asked.
    if (last >= first && last < end) {
      const value = this.ask(last, this.falls.of(last), prices);
      if (value > best) {
        best = value;
        way = last;
      }
    }
    for (let one = first; one < end; one++) {
      const fell = this.falls.of(one);
      if (one === last || (this.brought[one] as number) + fell - (this.fellBefore[one] as number) <= best)
        continue;
      const value = this.ask(one, fell, prices);
      if (value > best) {
        best = value;
        way = one;
      }
    }
    this.chosen[room] = way;
    if (way >= 0) this.wayAt(way, prices, taken);
    return best;
  }

  private ask(way: number, fell: number, prices: SharedPrices): number {
    const { firstSlot, firstPart } = this.season;
    this.looked +=
      (firstSlot[firstPart[way + 1] as number] as number) - (firstSlot[firstPart[way] as number] as number);
    const value = this.wayAt(way, prices, undefined);
    this.brought[way] = value;
    this.fellBefore[way] = fell;
    return value;
  }

  /** What a way brings at the prices. */
  wayAt(way: number, prices: SharedPrices, taken: Taken | undefined): number {
    const { season } = this;
    let value = this.withoutSales(way, prices);
    if (taken && season.wayStands[way] === 1) {
      const week = season.wayWeek[way] as number;
      for (let at = week; at < week + (season.wayCount[way] as number); at++)
        taken.open[at] = (taken.open[at] as number) + 1;
    }
    this.priceBins(way, prices);
    const end = season.firstPart[way + 1] as number;
    for (let part = season.firstPart[way] as number; part < end; part++)
      value += this.partAt(way, part, prices, taken);
    return value;
  }

  /** What a way brings before any packing and sale. */
  withoutSales(way: number, { open }: SharedPrices): number {
    const { season } = this;
    let value = season.wayBrings[way] as number;
    if (season.wayStands[way] !== 1) return value;
    const week = season.wayWeek[way] as number;
    for (let at = week; at < week + (season.wayCount[way] as number); at++) value -= open[at] as number;
    return value;
  }

  /** What the pools of a way bring whose product is of a group. */
  ofGroup(way: number, group: number, groupOf: Int32Array, prices: SharedPrices): number {
    const { season } = this;
    this.priceBins(way, prices);
    let value = 0;
    for (let part = season.firstPart[way] ?? 0; part < (season.firstPart[way + 1] ?? 0); part++)
      if (groupOf[season.partProduct[part] ?? 0] === group)
        value += this.partAt(way, part, prices, undefined);
    return value;
  }

  private priceBins(way: number, { lastDays }: SharedPrices): void {
    const { season, binPrice } = this;
    const week = season.wayWeek[way] as number;
    const last = season.wayLast[way] as number;
    for (let since = 0; since < (season.wayCount[way] as number); since++) {
      const at = week + since;
      binPrice[since] =
        (this.aBin[at] as number) +
        (season.wayUnpacked[way] as number) +
        (at === last ? (lastDays[at] as number) : 0);
    }
  }

  /** What a pool of a way brings: its bins go to the slots that pay most for one, the rest to processing. */
  private partAt(way: number, part: number, prices: SharedPrices, taken: Taken | undefined): number {
    const { season, binPrice, rate, gain, order } = this;
    const { yields, costOfWaiting, processingPrice } = season;
    const week = season.wayWeek[way] as number;
    const count = season.wayCount[way] as number;
    const bears = season.partBears[part] as number;
    const at = season.partYield[part] as number;
    let base = season.wayWhole[way] === 1 ? Number.NEGATIVE_INFINITY : 0;
    let baseSince = -1;
    for (let since = 0; since < count; since++) {
      const brings = (yields[at + since] as number) * processingPrice - bears * (binPrice[since] as number);
      if (brings > base) {
        base = brings;
        baseSince = since;
      }
    }
    const start = season.firstSlot[part] as number;
    const end = season.firstSlot[part + 1] as number;
    let found = 0;
    for (let slot = start; slot < end; slot++) {
      const sold = season.slotWeek[slot] as number;
      const pays =
        (season.slotPays[slot] as number) - (prices.wanted[season.slotPlace[slot] as number] as number);
      let a = 0;
      let aCarton = 0;
      let by = -1;
      const to = season.slotTo[slot] as number;
      for (let since = season.slotFrom[slot] as number; since <= to; since++) {
        const cartons = yields[at + since] as number;
        const aBin =
          cartons * (pays - costOfWaiting * (sold - week - since)) -
          bears * (binPrice[since] as number) -
          base;
        if (aBin <= 0) continue;
        if (aBin > a) {
          a = aBin;
          by = since;
        }
        if (aBin > aCarton * cartons) aCarton = aBin / cartons;
      }
      if (by < 0) continue;
      // Kept sorted, the best first: there are a handful.
      let place = found++;
      while (place > 0 && (rate[order[place - 1] as number] as number) < a) {
        order[place] = order[place - 1] as number;
        place--;
      }
      const local = slot - start;
      order[place] = local;
      rate[local] = a;
      gain[local] = aCarton * (season.slotCartons[slot] as number);
      this.since[local] = by;
    }
    const bins = season.wayBins[way] as number;
    let left = bins;
    let value = base * bins;
    for (let rank = 0; rank < found && left > 0; rank++) {
      const local = order[rank] as number;
      const perBin = rate[local] as number;
      const wants = (gain[local] as number) / perBin;
      const uses = Math.min(wants, left);
      value += uses * perBin;
      left -= uses;
      if (taken) this.take(way, at, start + local, this.since[local] as number, uses, bears, taken);
    }
    if (taken && baseSince >= 0) this.pack(way, baseSince, left * bears, taken);
    return value;
  }

  private take(
    way: number,
    at: number,
    slot: number,
    since: number,
    bins: number,
    bears: number,
    taken: Taken,
  ): void {
    const { season } = this;
    const place = season.slotPlace[slot] as number;
    const cartons = Math.min(
      bins * (season.yields[at + since] as number),
      season.slotCartons[slot] as number,
    );
    taken.wanted[place] = (taken.wanted[place] as number) + cartons;
    this.pack(way, since, bins * bears, taken);
  }

  private pack(way: number, since: number, bins: number, { packing, lastDays }: Taken): void {
    const week = (this.season.wayWeek[way] as number) + since;
    packing[week] = (packing[week] as number) + bins;
    if (week === this.season.wayLast[way]) lastDays[week] = (lastDays[week] as number) + bins;
  }
}
