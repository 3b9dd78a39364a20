import type { PartRoom } from './price-tree';
import type { PricedSeason } from './priced-season';
import { RoomsAtPrices } from './room-at-prices';
import { noPrices, pricesIn, type Shared, type SharedPrices } from './shared-prices';
import { poolsOf } from './sources';
import type { ReleaseProblem } from './types';

/** A share of the season with its own rooms, at fixed prices of what it shares with others. */
export interface PricedPart {
  readonly products: readonly number[];
  /** Demands for its products. */
  readonly demands: readonly number[];
  readonly season: PricedSeason;
  readonly shared: Shared;
  /** The season's room of each of the part's. */
  readonly roomOf: readonly number[];
  readonly rooms: readonly PartRoom[];
}

/**
 * Takes the season apart by variety at fixed prices of the packhouse and of open rooms. What a room of several varieties
 * brings without sales is shared between its parts: all but the first get what makes each of its weeks as good as the
 * others at the given prices, the first the rest. So the parts' limits at these prices together are the season's.
 */
export function pricedParts(
  problem: ReleaseProblem,
  season: PricedSeason,
  shared: Shared,
  prices: SharedPrices,
): readonly PricedPart[] {
  const groups = groupsOf(problem);
  const groupOf = new Int32Array(problem.products.length);
  groups.forEach((products, group) => {
    for (const product of products) groupOf[product] = group;
  });
  const worth = new RoomsAtPrices(season, shared);
  worth.see(prices);
  const parts = groups.map((products) => new PartMaker(problem, season, products));
  for (let room = 0; room < season.rooms; room++) addRoom(season, room, groupOf, worth, prices, parts);
  return parts.map((part) => part.made(shared));
}

/** Products of a variety together, and with them those that share a demand. */
function groupsOf(problem: ReleaseProblem): number[][] {
  const groups: { readonly names: Set<string>; readonly products: number[] }[] = [];
  for (const pool of poolsOf(problem)) {
    const names = new Set(pool.map((product) => problem.products[product]?.variety ?? ''));
    const same = groups.filter((group) => [...names].some((name) => group.names.has(name)));
    const merged = {
      names: new Set([...names, ...same.flatMap((group) => [...group.names])]),
      products: [...same.flatMap((group) => group.products), ...pool],
    };
    groups.splice(0, groups.length, ...groups.filter((group) => !same.includes(group)), merged);
  }
  return groups.map(({ products }) => products);
}

function addRoom(
  season: PricedSeason,
  room: number,
  groupOf: Int32Array,
  worth: RoomsAtPrices,
  prices: SharedPrices,
  parts: readonly PartMaker[],
): void {
  const [first, end] = [season.firstWay[room] ?? 0, season.firstWay[room + 1] ?? 0];
  const given = new Set<number>();
  for (let part = season.firstPart[first] ?? 0; part < (season.firstPart[end] ?? 0); part++)
    given.add(groupOf[season.partProduct[part] ?? 0] ?? 0);
  const [main, ...others] = given.size > 0 ? given : [0];
  const left = Float64Array.from({ length: end - first }, (_, at) => worth.withoutSales(first + at, prices));
  for (const group of others) {
    const brings = left.map((_, at) => -worth.ofGroup(first + at, group, groupOf, prices));
    for (let at = 0; at < left.length; at++) left[at] = (left[at] ?? 0) - (brings[at] ?? 0);
    parts[group]?.add(room, 0, brings, group, groupOf);
  }
  parts[main ?? 0]?.add(room, season.closed[room] ?? 0, left, main ?? 0, groupOf);
}

/** Copies what belongs to a part into flat arrays of its own. */
class PartMaker {
  readonly rooms: PartRoom[] = [];
  private readonly roomOf: number[] = [];
  private readonly closed: number[] = [];
  private readonly firstWay = [0];
  private readonly ways: number[] = [];
  private readonly brings: number[] = [];
  private readonly firstPart = [0];
  private readonly parts: number[] = [];
  private readonly firstSlot = [0];
  private readonly slots: number[] = [];

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly season: PricedSeason,
    private readonly products: readonly number[],
  ) {}

  add(room: number, closed: number, brings: Float64Array, group: number, groupOf: Int32Array): void {
    const { season } = this;
    const first = season.firstWay[room] ?? 0;
    // A room that must open has to in each of its parts.
    const isClosed = season.closed[room] === Number.NEGATIVE_INFINITY ? Number.NEGATIVE_INFINITY : closed;
    this.closed.push(isClosed);
    this.roomOf.push(room);
    const weeks: { week: number; brings: number }[] = [];
    brings.forEach((money, at) => {
      const way = first + at;
      weeks.push({ week: season.wayWeek[way] ?? 0, brings: money });
      this.ways.push(way);
      this.brings.push(money);
      for (let part = season.firstPart[way] ?? 0; part < (season.firstPart[way + 1] ?? 0); part++) {
        if (groupOf[season.partProduct[part] ?? 0] !== group) continue;
        this.parts.push(part);
        for (let slot = season.firstSlot[part] ?? 0; slot < (season.firstSlot[part + 1] ?? 0); slot++)
          this.slots.push(slot);
        this.firstSlot.push(this.slots.length);
      }
      this.firstPart.push(this.parts.length);
    });
    this.firstWay.push(this.ways.length);
    this.rooms.push({ room, closed: isClosed, weeks });
  }

  made(shared: Shared): PricedPart {
    const { season, problem } = this;
    const ints = (of: Int32Array, places: readonly number[]) => Int32Array.from(places, (at) => of[at] ?? 0);
    const floats = (of: Float64Array, places: readonly number[]) =>
      Float64Array.from(places, (at) => of[at] ?? 0);
    const own: PricedSeason = {
      ...season,
      constant: 0,
      rooms: this.rooms.length,
      closed: Float64Array.from(this.closed),
      firstWay: Int32Array.from(this.firstWay),
      wayWeek: ints(season.wayWeek, this.ways),
      wayCount: ints(season.wayCount, this.ways),
      wayBrings: Float64Array.from(this.brings),
      wayBins: floats(season.wayBins, this.ways),
      wayLast: ints(season.wayLast, this.ways),
      // Its place among open rooms is in what it brings.
      wayStands: new Uint8Array(this.ways.length),
      wayWhole: Uint8Array.from(this.ways, (at) => season.wayWhole[at] ?? 0),
      wayUnpacked: floats(season.wayUnpacked, this.ways),
      firstPart: Int32Array.from(this.firstPart),
      partProduct: ints(season.partProduct, this.parts),
      partBears: floats(season.partBears, this.parts),
      partYield: ints(season.partYield, this.parts),
      firstSlot: Int32Array.from(this.firstSlot),
      slotPlace: ints(season.slotPlace, this.slots),
      slotWeek: ints(season.slotWeek, this.slots),
      slotFrom: ints(season.slotFrom, this.slots),
      slotTo: ints(season.slotTo, this.slots),
      slotCartons: floats(season.slotCartons, this.slots),
      slotPays: floats(season.slotPays, this.slots),
    };
    const [amounts, scale] = [noPrices(problem), noPrices(problem)];
    const all = pricesIn(shared.amounts, problem.weeks).wanted;
    const moves = pricesIn(shared.scale, problem.weeks).wanted;
    const [itsAmounts, itsScale] = [amounts, scale].map((flat) => pricesIn(flat, problem.weeks).wanted);
    const demands: number[] = [];
    problem.demands.forEach((demand, index) => {
      const product = demand.from?.[0]?.product ?? demand.product;
      if (!this.products.includes(product)) return;
      demands.push(index);
      for (let at = index * problem.weeks; at < (index + 1) * problem.weeks; at++) {
        if (itsAmounts) itsAmounts[at] = all[at] ?? 0;
        if (itsScale) itsScale[at] = moves[at] ?? 0;
      }
    });
    const { products, roomOf, rooms } = this;
    return { products, demands, season: own, shared: { ...shared, amounts, scale }, roomOf, rooms };
  }
}
