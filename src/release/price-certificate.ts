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
  season = new PricedAgain(problem, given),
): number {
  season.mustStandAt(given);
  season.priceWanted(given.wanted);
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

/** A place in a demand, and the products it takes. */
interface Place {
  readonly demand: number;
  readonly week: number;
  readonly products: readonly number[];
}

interface Pool {
  readonly products: readonly number[];
  /** By week. */
  readonly places: readonly (readonly Place[])[];
  /** The most that anybody pays for a carton. */
  readonly best: number;
}

/** A pool of a room that opens in some week: all that does not depend on the prices of places. */
interface PoolWay {
  readonly product: number;
  readonly bins: number;
  /** What a bin brings that goes to no place. */
  readonly least: number;
  readonly reached: readonly Reached[];
}

/** A place in a demand that a pool of a room can be sold in. */
interface Reached {
  readonly demand: number;
  readonly week: number;
  readonly cartons: number;
  /** By week of packing: cartons of the pool in a bin, and what a bin costs that goes there. */
  readonly ways: readonly { readonly all: number; readonly costs: number }[];
}

interface Way {
  readonly pools: readonly PoolWay[];
  readonly unheld: number;
}

/** The season at prices, for whoever checks a limit; shares no code with the ascent. */
export class PricedAgain {
  private readonly pools: readonly Pool[];
  private readonly ways = new Map<ProblemRoom, Map<number, Way>>();
  private wanted: Float64Array;
  /** Money for a bin packed in each week. */
  private readonly aBin: number[];
  private readonly prices: SharedPrices;

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly given: SharedPrices,
  ) {
    const most = problem.evenWork?.price ?? 0;
    const positive = (price: number) => (price > 0 && Number.isFinite(price) ? price : 0);
    this.prices = {
      packing: given.packing.map(positive),
      lastDays: given.lastDays.map((price) => (problem.lastWeekBins ? positive(price) : 0)),
      open: given.open.map((price) => (problem.roomsOpenAtOnce === null ? 0 : positive(price))),
      pace: given.pace.map((price) => Math.max(-most, Math.min(most, Number.isFinite(price) ? price : 0))),
      wanted: new Float64Array(0),
    };
    this.wanted = given.wanted;
    this.priceWanted(given.wanted);
    this.aBin = this.binPrices();
    this.pools = poolsOf(problem).map((products) => {
      const places = this.placesOf(products);
      const payers = places.flat().map(({ demand }) => problem.demands[demand]?.price ?? 0);
      return { products, places, best: Math.max(problem.processingPrice, ...payers) };
    });
  }

  /** Throws where these are not the very prices it stands at: looked at for one limit, it may serve another at the same. */
  mustStandAt(prices: SharedPrices): void {
    if (prices !== this.given) throw new RangeError('the season was looked at with other prices');
  }

  /** Other prices of places in demands; all others stay. */
  priceWanted(wanted: Float64Array): void {
    this.wanted = wanted.map((price) => (price > 0 && Number.isFinite(price) ? price : 0));
  }

  /** What all that is shared costs, each kind and week by itself; shortage as if nothing were sold. */
  amounts(): number[] {
    const { demands } = this.problem;
    return [...this.weeksCost(), ...demands.flatMap((_, demand) => this.placesCost(demand))];
  }

  /** What the packhouse, its last days and open rooms cost, by week. */
  weeksCost(): number[] {
    const { weeks, packingBins, lastWeekBins, roomsOpenAtOnce } = this.problem;
    const { packing, lastDays, open } = this.prices;
    const byWeek = Array.from({ length: weeks }, (_, week) => [
      (packing[week] ?? 0) * (packingBins[week] ?? 0),
      (lastDays[week] ?? 0) * (lastWeekBins?.[week] ?? 0),
      (open[week] ?? 0) * (roomsOpenAtOnce ?? 0),
    ]);
    return byWeek.flat();
  }

  /** What the places of a demand cost, less the shortage if nothing were sold, by week. */
  placesCost(demand: number): number[] {
    const { cartons = [], priceOfShortage = 0 } = this.problem.demands[demand] ?? {};
    return cartons.map((wanted, week) => wanted * (this.priceOf(demand, week) - priceOfShortage));
  }

  /** The most that a room can bring that is opened in a week, what it costs to open it included. */
  roomIn(room: ProblemRoom, week: number): number {
    const { pools, unheld } = this.wayOf(room, week);
    return this.opening(room, week) + unheld + pools.reduce((sum, pool) => sum + this.poolIn(pool), 0);
  }

  /** What opening a room costs before any packing and sale, as money that it brings. */
  opening(room: ProblemRoom, week: number): number {
    if (room.fromField) return 0;
    return this.weeksOf(room, week).reduce(
      (money, at) => money - (this.prices.open[at] ?? 0),
      -openingCost(room, week),
    );
  }

  /** What a room's packing and sales bring of some products at most. */
  salesOf(room: ProblemRoom, week: number, products: readonly number[]): number {
    const { pools, unheld } = this.wayOf(room, week);
    // What no product pays for belongs to whoever has the first.
    const rest = products.includes(0) ? unheld : 0;
    return pools.reduce(
      (sum, pool) => (products.includes(pool.product) ? sum + this.poolIn(pool) : sum),
      rest,
    );
  }

  private weeksOf(room: ProblemRoom, week: number): number[] {
    const weeks = Array.from({ length: room.weeksToEmpty }, (_, since) => week + since);
    return weeks.filter((at) => at < this.problem.weeks);
  }

  private wayOf(room: ProblemRoom, week: number): Way {
    const ofRoom = this.ways.get(room) ?? new Map<number, Way>();
    this.ways.set(room, ofRoom);
    const way = ofRoom.get(week) ?? this.lookAt(room, week);
    ofRoom.set(week, way);
    return way;
  }

  private lookAt(room: ProblemRoom, week: number): Way {
    const { problem, prices } = this;
    const { fromField } = room;
    const weeks = this.weeksOf(room, week);
    const last = week + room.weeksToEmpty - 1;
    const costs = weeks.map(
      (at) =>
        (this.aBin[at] ?? 0) +
        (fromField ? worthUnpacked(problem, room) : at === last ? (prices.lastDays[at] ?? 0) : 0),
    );
    const here = this.pools.filter(({ products }) => weeks.some((at) => this.gives(room, at, products) > 0));
    const worth = here.map(
      ({ products, best }) => best * weeks.reduce((sum, at) => sum + this.gives(room, at, products), 0),
    );
    const all = worth.reduce((sum, one) => sum + one, 0);
    // Whoever bears it, a bin is paid for once. A room that gives nothing pays for its cheapest week.
    if (here.length === 0 || all <= 0)
      return { pools: [], unheld: fromField ? 0 : -room.bins * Math.min(...costs) };
    const pools = here.map((pool, at) => {
      const bears = (worth[at] ?? 0) / all;
      return this.poolOf(
        room,
        weeks,
        pool,
        costs.map((cost) => bears * cost),
      );
    });
    return { pools, unheld: 0 };
  }

  private poolOf(room: ProblemRoom, weeks: readonly number[], pool: Pool, paid: readonly number[]): PoolWay {
    const { processingPrice, packedWaitWeeks, costOfWaiting, demands } = this.problem;
    const { products, places } = pool;
    const gives = weeks.map((at) => this.gives(room, at, products));
    const unsold = weeks.map((_, at) => (gives[at] ?? 0) * processingPrice - (paid[at] ?? 0));
    // A room is packed whole; fruit from the field may be left.
    const least = room.fromField ? Math.max(0, ...unsold) : Math.max(...unsold);
    const bins = room.fromField
      ? Math.min(
          room.bins,
          room.fromField.mostBins.reduce((sum, one) => sum + one, 0),
        )
      : room.bins;
    const reached: Reached[] = [];
    for (let week = weeks[0] ?? 0; week <= (weeks.at(-1) ?? -1) + packedWaitWeeks; week++) {
      for (const { demand, products: taken } of places[week] ?? []) {
        const ways: { all: number; costs: number }[] = [];
        let most = 0;
        for (let at = 0; at < weeks.length; at++) {
          const packed = weeks[at] ?? 0;
          const waits = week - packed;
          if (waits < 0 || waits > packedWaitWeeks) continue;
          const cartons = this.gives(room, packed, taken);
          if (cartons <= 0) continue;
          const all = gives[at] ?? 0;
          ways.push({ all, costs: all * costOfWaiting * waits + (paid[at] ?? 0) + least });
          most = Math.max(most, cartons);
        }
        if (ways.length === 0) continue;
        const cartons = Math.min(demands[demand]?.cartons[week] ?? 0, bins * most);
        reached.push({ demand, week, cartons, ways });
      }
    }
    return { product: products[0] ?? 0, bins, least, reached };
  }

  private poolIn({ bins, least, reached }: PoolWay): number {
    const offers: { aBin: number; money: number }[] = [];
    for (const { demand, week, cartons, ways } of reached) {
      const pays = this.paysFor(demand, week);
      let aBin = 0;
      let aCarton = 0;
      for (const { all, costs } of ways) {
        const money = all * pays - costs;
        aBin = Math.max(aBin, money);
        aCarton = Math.max(aCarton, money / all);
      }
      if (aBin > 0) offers.push({ aBin, money: cartons * aCarton });
    }
    let left = bins;
    let money = least * bins;
    for (const offer of offers.sort((a, b) => b.aBin - a.aBin)) {
      const taken = Math.min(left, offer.money / offer.aBin);
      money += taken * offer.aBin;
      left -= taken;
    }
    return money;
  }

  private placesOf(products: readonly number[]): Place[][] {
    const places: Place[][] = Array.from({ length: this.problem.weeks }, () => []);
    this.problem.demands.forEach((one, demand) => {
      const sources = sourcesOf(this.problem, one).filter(({ product }) => products.includes(product));
      one.cartons.forEach((wanted, week) => {
        const taken = sources.filter(({ until }) => week <= until).map(({ product }) => product);
        if (wanted > 0 && taken.length > 0) places[week]?.push({ demand, week, products: taken });
      });
    });
    return places;
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
    const cartons = room.cartonsABin[week];
    let sum = 0;
    for (const product of products) sum += cartons?.[product] ?? 0;
    return sum;
  }

  private paysFor(demand: number, week: number): number {
    const one = this.problem.demands[demand];
    return (one?.price ?? 0) + (one?.priceOfShortage ?? 0) - this.priceOf(demand, week);
  }

  private priceOf(demand: number, week: number): number {
    return this.wanted[demand * this.problem.weeks + week] ?? 0;
  }
}
