import { workingWeekBefore } from './even-work';
import { worthUnpacked } from './from-field';
import { openingCost } from './opening-cost';
import type { SharedPrices } from './shared-prices';
import { poolsOf, sourcesOf } from './sources';
import type { ProblemRoom, ReleaseProblem } from './types';

export const PRICES_REST_ON =
  'prices of the packhouse, of open rooms and of each place in a demand, at which rooms are best each for itself; ' +
  'worked out anew from the prices alone, without the solver';

/** Rounding of the sums below, as a share of what is summed. */
const ROUNDING = 1e-9;

/**
 * A limit on the value of any schedule that follows from any prices whatever (a negative one counts as 0, one of pace is
 * held to the price of uneven work), so that nobody need believe how they were found:
 *
 *     bound = sum over what is shared of price x amount - shortage if nothing were sold
 *             + sum over rooms of the most that a room can bring in any one of its weeks, or closed, where it pays for its
 *               bins, its place among open rooms and its places in demands.
 *
 * What a room brings in a week is itself taken too high rather than too low: products that no demand takes together
 * choose their weeks of packing apart, each bearing a share of the packing price; a place in a demand is filled with
 * cartons of whichever week of packing is best for a bin, and again for a carton; the order of rooms is left out.
 */
export function boundAtPrices(
  problem: ReleaseProblem,
  unmet: readonly number[],
  given: SharedPrices,
): number {
  const season = new PricedAgain(problem, given);
  let [bound, summed] = [0, 0];
  const add = (money: number) => {
    bound += money;
    summed += Math.abs(money);
  };
  season.amounts().forEach(add);
  problem.rooms.forEach((room, index) => {
    const closed = unmet.includes(index);
    if (room.fromField) {
      add(worthUnpacked(problem, room) * room.bins);
      add(Math.max(0, season.roomIn(room, room.earliest)));
      return;
    }
    const brings = room.pinned !== null && !closed ? [] : [-openingCost(room, null)];
    const [first, last] = [room.pinned ?? room.earliest, room.pinned ?? room.latest];
    for (let week = Math.max(0, first); week <= last && week < problem.weeks && !closed; week++)
      brings.push(season.roomIn(room, week));
    add(Math.max(...brings));
  });
  return bound + ROUNDING * Math.max(1, summed);
}

/** A place in a demand as one room sees it. */
interface Place {
  readonly demand: number;
  readonly week: number;
  readonly pays: number;
  readonly products: readonly number[];
}

class PricedAgain {
  private readonly pools: readonly {
    readonly products: readonly number[];
    readonly places: readonly Place[];
  }[];
  /** Money for a bin packed in each week. */
  private readonly aBin: number[];
  private readonly prices: SharedPrices;

  constructor(
    private readonly problem: ReleaseProblem,
    given: SharedPrices,
  ) {
    const most = problem.evenWork?.price ?? 0;
    const positive = (price: number) => (price > 0 && Number.isFinite(price) ? price : 0);
    this.prices = {
      packing: given.packing.map(positive),
      lastDays: given.lastDays.map((price) => (problem.lastWeekBins ? positive(price) : 0)),
      open: given.open.map((price) => (problem.roomsOpenAtOnce === null ? 0 : positive(price))),
      pace: given.pace.map((price) => Math.max(-most, Math.min(most, Number.isFinite(price) ? price : 0))),
      wanted: given.wanted.map(positive),
    };
    this.aBin = this.binPrices();
    this.pools = poolsOf(problem).map((products) => ({ products, places: this.placesOf(products) }));
  }

  /** What all that is shared costs, each kind and week by itself; shortage as if nothing were sold. */
  amounts(): number[] {
    const { weeks, packingBins, lastWeekBins, roomsOpenAtOnce, demands } = this.problem;
    const { packing, lastDays, open } = this.prices;
    const byWeek = Array.from({ length: weeks }, (_, week) => [
      (packing[week] ?? 0) * (packingBins[week] ?? 0),
      (lastDays[week] ?? 0) * (lastWeekBins?.[week] ?? 0),
      (open[week] ?? 0) * (roomsOpenAtOnce ?? 0),
    ]);
    const places = demands.flatMap(({ cartons, priceOfShortage }, demand) =>
      cartons.map((wanted, week) => wanted * (this.priceOf(demand, week) - priceOfShortage)),
    );
    return [...byWeek.flat(), ...places];
  }

  /** The most that a room can bring that is opened in a week. */
  roomIn(room: ProblemRoom, week: number): number {
    const { problem, prices } = this;
    const { fromField } = room;
    const weeks = Array.from({ length: room.weeksToEmpty }, (_, since) => week + since).filter(
      (at) => at < problem.weeks,
    );
    let money = fromField ? 0 : -openingCost(room, week);
    if (!fromField) for (const at of weeks) money -= prices.open[at] ?? 0;
    const last = week + room.weeksToEmpty - 1;
    const costs = weeks.map(
      (at) =>
        (this.aBin[at] ?? 0) +
        (fromField ? worthUnpacked(problem, room) : at === last ? (prices.lastDays[at] ?? 0) : 0),
    );
    const here = this.pools.filter(({ products }) => weeks.some((at) => this.gives(room, at, products) > 0));
    const worth = here.map(({ products, places }) => {
      const best = Math.max(
        problem.processingPrice,
        ...places.map(({ demand }) => problem.demands[demand]?.price ?? 0),
      );
      return best * weeks.reduce((sum, at) => sum + this.gives(room, at, products), 0);
    });
    const all = worth.reduce((sum, one) => sum + one, 0);
    // Whoever bears it, a bin is paid for once. A room that gives nothing pays for its cheapest week.
    if (here.length === 0 || all <= 0) return money - (fromField ? 0 : room.bins * Math.min(...costs));
    here.forEach(({ products, places }, at) => {
      const bears = (worth[at] ?? 0) / all;
      const paid = costs.map((cost) => bears * cost);
      money += this.poolIn(room, weeks, products, places, paid);
    });
    return money;
  }

  private poolIn(
    room: ProblemRoom,
    weeks: readonly number[],
    products: readonly number[],
    places: readonly Place[],
    paid: readonly number[],
  ): number {
    const { processingPrice, packedWaitWeeks, costOfWaiting } = this.problem;
    const gives = weeks.map((at) => this.gives(room, at, products));
    const unsold = weeks.map((_, at) => (gives[at] ?? 0) * processingPrice - (paid[at] ?? 0));
    // A room is packed whole; fruit from the field may be left.
    const least = room.fromField ? Math.max(0, ...unsold) : Math.max(...unsold);
    let left = room.fromField
      ? Math.min(
          room.bins,
          room.fromField.mostBins.reduce((sum, bins) => sum + bins, 0),
        )
      : room.bins;
    const most = left;
    const offers: { aBin: number; money: number }[] = [];
    for (const place of places) {
      const ways = weeks.flatMap((packed, at) => {
        const waits = place.week - packed;
        const cartons = this.gives(room, packed, place.products);
        if (waits < 0 || waits > packedWaitWeeks || cartons <= 0) return [];
        const all = gives[at] ?? 0;
        const aBin = all * (place.pays - costOfWaiting * waits) - (paid[at] ?? 0) - least;
        return [{ cartons, aBin, aCarton: aBin / all }];
      });
      const aBin = Math.max(0, ...ways.map((way) => way.aBin));
      if (aBin <= 0) continue;
      const wanted = this.problem.demands[place.demand]?.cartons[place.week] ?? 0;
      const cartons = Math.min(wanted, most * Math.max(...ways.map((way) => way.cartons)));
      offers.push({ aBin, money: cartons * Math.max(...ways.map((way) => way.aCarton)) });
    }
    let money = least * most;
    for (const offer of offers.sort((a, b) => b.aBin - a.aBin)) {
      const bins = Math.min(left, offer.money / offer.aBin);
      money += bins * offer.aBin;
      left -= bins;
    }
    return money;
  }

  private placesOf(products: readonly number[]): Place[] {
    return this.problem.demands.flatMap((one, demand) => {
      const sources = sourcesOf(this.problem, one).filter(({ product }) => products.includes(product));
      return one.cartons.flatMap((wanted, week) => {
        const taken = sources.filter(({ until }) => week <= until).map(({ product }) => product);
        if (wanted <= 0 || taken.length === 0) return [];
        const pays = one.price + one.priceOfShortage - this.priceOf(demand, week);
        return [{ demand, week, pays, products: taken }];
      });
    });
  }

  private binPrices(): number[] {
    const { weeks, evenWork } = this.problem;
    const fullWeeks = evenWork?.fullWeeks ?? [];
    const aBin = Array.from({ length: weeks }, (_, week) => this.prices.packing[week] ?? 0);
    workingWeekBefore(fullWeeks).forEach((before, week) => {
      if (before < 0) return;
      const price = this.prices.pace[week] ?? 0;
      aBin[week] = (aBin[week] ?? 0) + price / (fullWeeks[week] ?? 1);
      aBin[before] = (aBin[before] ?? 0) - price / (fullWeeks[before] ?? 1);
    });
    return aBin;
  }

  private gives(room: ProblemRoom, week: number, products: readonly number[]): number {
    return products.reduce((sum, product) => sum + (room.cartonsABin[week]?.[product] ?? 0), 0);
  }

  private priceOf(demand: number, week: number): number {
    return this.prices.wanted[demand * this.problem.weeks + week] ?? 0;
  }
}
