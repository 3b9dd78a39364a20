import { asManyAsFit, freePlaces, type Offer, offerOf, type RoomLoad, withMore } from './load';
import { Memo } from './memo';
import { Together } from './together';
import type { FillProblem, LotToPlace } from './types';
import { weights } from './weights';

/** Where a search stands: each room's load, and each lot's bins not yet placed by arrival. */
export class FillState {
  readonly loads: (RoomLoad | undefined)[];
  readonly left: (readonly number[])[];
  /** Bins of each lot not yet placed. */
  readonly leftBins: number[];
  /** Rooms each lot is put into, those not counted that a fill of the plan holds some of it in. */
  readonly roomsOf: number[];
  readonly together: Together;

  constructor(
    readonly problem: FillProblem,
    private readonly memo = new Memo(problem.regimes.length),
    as?: FillState,
  ) {
    const { rooms, lots } = problem;
    this.loads = as ? as.loads.slice() : rooms.map(() => undefined);
    this.left = as ? as.left.slice() : lots.map(({ arrivals }) => arrivals.map(({ bins }) => bins));
    this.leftBins = as ? as.leftBins.slice() : lots.map(({ bins }) => bins);
    this.roomsOf = as ? as.roomsOf.slice() : lots.map(() => 0);
    this.together = new Together(problem, as?.together);
  }

  copy(): FillState {
    return new FillState(this.problem, this.memo, this);
  }

  become(other: FillState): void {
    for (let room = 0; room < this.loads.length; room++) this.loads[room] = other.loads[room];
    for (let lot = 0; lot < this.left.length; lot++) {
      this.left[lot] = other.left[lot] as readonly number[];
      this.leftBins[lot] = other.leftBins[lot] as number;
      this.roomsOf[lot] = other.roomsOf[lot] as number;
    }
    this.together.become(other.together);
  }

  get cost(): number {
    return this.costAt(weights.unplacedBin);
  }

  /** The cost were a bin left over to cost `unplacedBin`. */
  costAt(unplacedBin: number): number {
    let cost = this.together.cost;
    for (const load of this.loads) cost += load?.cost ?? 0;
    for (const bins of this.leftBins) cost += unplacedBin * bins;
    for (let lot = 0; lot < this.roomsOf.length; lot++) {
      const first = (this.problem.lots[lot]?.inFills ?? 0) > 0 ? 0 : 1;
      cost += weights.split * Math.max(0, (this.roomsOf[lot] as number) - first);
    }
    return cost;
  }

  /** What so many bins cost that go to no room. */
  unplacedCost(bins: number): number {
    return weights.unplacedBin * bins;
  }

  /** What a further room would cost a lot and its grower, over what the room itself costs. */
  costOfAnotherRoom(room: number, lot: number): number {
    const one = this.problem.lots[lot];
    const isIn = this.loads[room]?.parts.some((part) => part.lot === lot) || this.holds(room, lot);
    if (!one || isIn) return 0;
    const isElsewhere = (this.roomsOf[lot] ?? 0) > 0 || one.inFills > 0;
    return (
      (isElsewhere ? weights.split : 0) + this.together.costOfAnother(room, this.loads[room], one.grower)
    );
  }

  /** A fill of the plan has put some of the lot into the room already. */
  private holds(room: number, lot: number): boolean {
    const held = this.problem.rooms[room]?.held;
    return held?.lots.includes(this.problem.lots[lot]?.id ?? '') === true;
  }

  /** Takes everything out of a room, but what a fill of the plan has put into it. */
  empty(room: number): void {
    const load = this.loads[room];
    if (!load) return;
    for (const { lot, bins, byArrival } of load.parts) {
      this.left[lot] = (this.left[lot] ?? []).map((left, index) => left + (byArrival[index] ?? 0));
      this.leftBins[lot] = (this.leftBins[lot] ?? 0) + bins;
      if (!this.holds(room, lot)) this.roomsOf[lot] = (this.roomsOf[lot] ?? 0) - 1;
    }
    this.together.count(room, load, -1);
    this.loads[room] = undefined;
  }

  /** Puts a load that was found with `withLot` or `loadOf` into an empty or growing room. */
  set(room: number, load: RoomLoad): void {
    this.empty(room);
    for (const { lot, bins, byArrival } of load.parts) {
      this.left[lot] = (this.left[lot] ?? []).map((left, index) => left - (byArrival[index] ?? 0));
      this.leftBins[lot] = (this.leftBins[lot] ?? 0) - bins;
      if (!this.holds(room, lot)) this.roomsOf[lot] = (this.roomsOf[lot] ?? 0) + 1;
    }
    this.together.count(room, load, 1);
    this.loads[room] = load;
  }

  /** Puts bins of a lot, by its arrivals, into a room beside what is in it; they were found to fit. */
  add(room: number, regime: number, lot: number, more: readonly number[]): void {
    const at = this.problem.rooms[room];
    const load = at && withMore(this.problem, at, regime, this.loads[room], lot, more);
    if (load) this.set(room, load);
  }

  /** What it takes to have as much more of the lot in a room that holds some as it can take: all that is left if it can. */
  offerIn(room: number, load: RoomLoad, lot: number): Offer | undefined {
    const find = () => this.fitting(room, load.regime, load, lot, offerOf);
    if (!this.isUntouched(lot)) return find();
    return known(this.memo.of(load), lot, find);
  }

  /** An empty room with as much of the lot as it can take. */
  openedFor(room: number, regime: number, lot: number): RoomLoad | undefined {
    const find = () => this.fitting(room, regime, undefined, lot, withMore);
    if (!this.isUntouched(lot)) return find();
    return known(this.memo.ofEmpty(room, regime), lot, find);
  }

  /** None of its bins are placed. */
  private isUntouched(lot: number): boolean {
    return this.leftBins[lot] === this.problem.lots[lot]?.bins;
  }

  /** What `find` gives for all that is left of the lot, where it cannot be for as much of it as can go in. */
  private fitting<T>(
    room: number,
    regime: number,
    load: RoomLoad | undefined,
    lot: number,
    find: (...args: Parameters<typeof withMore>) => T | undefined,
  ): T | undefined {
    const { problem } = this;
    const at = problem.rooms[room];
    const one = problem.lots[lot];
    if (!at || !one) return undefined;
    const free = freePlaces(at) - (load?.bins ?? 0);
    const left = this.left[lot] ?? [];
    if (free <= 0 || (load && !isNear(problem, load, one, left))) return undefined;
    if ((this.leftBins[lot] ?? 0) <= free) {
      const whole = find(problem, at, regime, load, lot, left);
      if (whole) return whole;
    }
    const taken = asManyAsFit(problem, at, regime, load, lot, left, free);
    return taken && find(problem, at, regime, load, lot, taken);
  }
}

function known<T>(found: Map<number, T | null>, lot: number, find: () => T | undefined): T | undefined {
  const before = found.get(lot);
  if (before !== undefined) return before ?? undefined;
  const now = find();
  found.set(lot, now ?? null);
  return now;
}

/** Whether any of the bins are picked at a time that one filling could still span. */
function isNear(problem: FillProblem, load: RoomLoad, lot: LotToPlace, left: readonly number[]): boolean {
  const { from, bins } = load.pickings;
  const reach = problem.mostFillingDays + problem.mostWaitingDays;
  return lot.arrivals.some(
    ({ day }, arrival) => left[arrival] && day > from + bins.length - 1 - reach && day < from + reach,
  );
}
