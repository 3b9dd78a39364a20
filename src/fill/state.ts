import { freePlaces, type RoomLoad, withMore } from './load';
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
  ) {
    this.loads = problem.rooms.map(() => undefined);
    this.left = problem.lots.map(({ arrivals }) => arrivals.map(({ bins }) => bins));
    this.leftBins = problem.lots.map(({ bins }) => bins);
    this.roomsOf = problem.lots.map(() => 0);
    this.together = new Together(problem);
  }

  copy(): FillState {
    const copy = new FillState(this.problem, this.memo);
    copy.become(this);
    return copy;
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

  /** The room with as much more of the lot as it can take: all that is left if it can. */
  withLot(room: number, regime: number, lot: number): RoomLoad | undefined {
    const load = this.loads[room];
    if (this.leftBins[lot] !== this.problem.lots[lot]?.bins) return this.findWithLot(room, regime, lot);
    const known = this.memo.get(room, regime, load, lot);
    if (known !== undefined) return known ?? undefined;
    const found = this.findWithLot(room, regime, lot);
    this.memo.put(room, regime, load, lot, found);
    return found;
  }

  private findWithLot(room: number, regime: number, lot: number): RoomLoad | undefined {
    const { problem } = this;
    const at = problem.rooms[room];
    const one = problem.lots[lot];
    const load = this.loads[room];
    if (!at || !one) return undefined;
    const free = freePlaces(at) - (load?.bins ?? 0);
    const left = this.left[lot] ?? [];
    if (free <= 0 || (load && !isNear(problem, load, one, left))) return undefined;
    if ((this.leftBins[lot] ?? 0) <= free) {
      const whole = withMore(problem, at, regime, load, lot, left);
      if (whole) return whole;
    }
    return this.partOf(room, regime, lot, free);
  }

  /** Of each picking as many bins as can go in, the first picked first. */
  private partOf(room: number, regime: number, lot: number, free: number): RoomLoad | undefined {
    const { problem } = this;
    const at = problem.rooms[room];
    const left = this.left[lot] ?? [];
    if (!at) return undefined;
    const taken = left.map(() => 0);
    let best: RoomLoad | undefined;
    let places = free;
    for (let arrival = 0; arrival < left.length && places > 0; arrival++) {
      let [fits, most] = [0, Math.min(left[arrival] ?? 0, places)];
      let tried = most;
      while (fits < most) {
        taken[arrival] = tried;
        const load = withMore(problem, at, regime, this.loads[room], lot, taken);
        if (load) {
          fits = tried;
          best = load;
        } else most = tried - 1;
        tried = Math.ceil((fits + most) / 2);
      }
      taken[arrival] = fits;
      places -= fits;
    }
    return best;
  }
}

/** Whether any of the bins are picked at a time that one filling could still span. */
function isNear(problem: FillProblem, load: RoomLoad, lot: LotToPlace, left: readonly number[]): boolean {
  const { from, bins } = load.pickings;
  const reach = problem.mostFillingDays + problem.mostWaitingDays;
  return lot.arrivals.some(
    ({ day }, arrival) => left[arrival] && day > from + bins.length - 1 - reach && day < from + reach,
  );
}
