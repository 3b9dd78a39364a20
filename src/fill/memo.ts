import type { RoomLoad } from './load';

type Known = Map<number, RoomLoad | null>;

/**
 * What was found before for a lot none of whose bins are placed yet, in a room as it stands: the search asks the same of
 * most rooms in every round, since a round changes few of them. Only saves time; forgets what no room holds any more.
 */
export class Memo {
  private readonly inLoads = new WeakMap<RoomLoad, Known>();
  private readonly inEmpty: (Known | undefined)[] = [];

  constructor(private readonly regimes: number) {}

  /** Undefined where nothing is known; null where the lot does not fit. */
  get(room: number, regime: number, load: RoomLoad | undefined, lot: number): RoomLoad | null | undefined {
    return this.of(room, regime, load).get(lot);
  }

  put(
    room: number,
    regime: number,
    load: RoomLoad | undefined,
    lot: number,
    found: RoomLoad | undefined,
  ): void {
    this.of(room, regime, load).set(lot, found ?? null);
  }

  private of(room: number, regime: number, load: RoomLoad | undefined): Known {
    const at = room * this.regimes + regime;
    let known = load ? this.inLoads.get(load) : this.inEmpty[at];
    if (!known) {
      known = new Map();
      if (load) this.inLoads.set(load, known);
      else this.inEmpty[at] = known;
    }
    return known;
  }
}
