import { type LoadPart, loadOf, type RoomLoad } from './load';
import type { FillProblem } from './types';
import { weights } from './weights';

/** Where a search stands: each room's load, and each lot's bins not yet placed by arrival. */
export class FillState {
  readonly loads: (RoomLoad | undefined)[];
  readonly left: (readonly number[])[];
  /** Bins of each lot not yet placed. */
  readonly leftBins: number[];
  /** Rooms each lot is in. */
  readonly roomsOf: number[];

  constructor(readonly problem: FillProblem) {
    this.loads = problem.rooms.map(() => undefined);
    this.left = problem.lots.map(({ arrivals }) => arrivals.map(({ bins }) => bins));
    this.leftBins = problem.lots.map(({ bins }) => bins);
    this.roomsOf = problem.lots.map(() => 0);
  }

  copy(): FillState {
    const copy = new FillState(this.problem);
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
  }

  get cost(): number {
    return this.costAt(weights.unplacedBin);
  }

  /** The cost were a bin left over to cost `unplacedBin`. */
  costAt(unplacedBin: number): number {
    let cost = 0;
    for (const load of this.loads) cost += load?.cost ?? 0;
    for (const bins of this.leftBins) cost += unplacedBin * bins;
    for (const rooms of this.roomsOf) cost += weights.split * Math.max(0, rooms - 1);
    return cost;
  }

  /** Takes everything out of a room. */
  empty(room: number): void {
    for (const { lot, bins, byArrival } of this.loads[room]?.parts ?? []) {
      this.left[lot] = (this.left[lot] ?? []).map((left, index) => left + (byArrival[index] ?? 0));
      this.leftBins[lot] = (this.leftBins[lot] ?? 0) + bins;
      this.roomsOf[lot] = (this.roomsOf[lot] ?? 0) - 1;
    }
    this.loads[room] = undefined;
  }

  /** Puts a load that was found with `withLot` or `loadOf` into an empty or growing room. */
  set(room: number, load: RoomLoad): void {
    this.empty(room);
    for (const { lot, bins, byArrival } of load.parts) {
      this.left[lot] = (this.left[lot] ?? []).map((left, index) => left - (byArrival[index] ?? 0));
      this.leftBins[lot] = (this.leftBins[lot] ?? 0) - bins;
      this.roomsOf[lot] = (this.roomsOf[lot] ?? 0) + 1;
    }
    this.loads[room] = load;
  }

  /** The room with as much more of the lot as it can take: all that is left if it can. */
  withLot(room: number, regime: number, lot: number): RoomLoad | undefined {
    const left = this.left[lot] ?? [];
    const whole = this.withBins(room, regime, lot, left);
    if (whole) return whole;
    const free = (this.problem.rooms[room]?.places ?? 0) - (this.loads[room]?.bins ?? 0);
    if (free <= 0) return undefined;
    const taken = left.map(() => 0);
    let best: RoomLoad | undefined;
    for (let arrival = 0; arrival < left.length; arrival++) {
      let [fits, most] = [0, left[arrival] ?? 0];
      while (fits < most) {
        const tried = Math.ceil((fits + most) / 2);
        taken[arrival] = tried;
        const load = this.withBins(room, regime, lot, taken);
        if (load) {
          fits = tried;
          best = load;
        } else most = tried - 1;
      }
      taken[arrival] = fits;
    }
    return best;
  }

  private withBins(room: number, regime: number, lot: number, more: readonly number[]): RoomLoad | undefined {
    const at = this.problem.rooms[room];
    if (!at) return undefined;
    const parts = this.loads[room]?.parts ?? [];
    const had = parts.find((part) => part.lot === lot);
    const byArrival = more.map((bins, index) => bins + (had?.byArrival[index] ?? 0));
    const part: LoadPart = { lot, byArrival, bins: byArrival.reduce((sum, bins) => sum + bins, 0) };
    const others = had ? parts.filter((each) => each !== had) : parts;
    return loadOf(this.problem, at, regime, [...others, part]);
  }
}
