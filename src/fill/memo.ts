import type { Offers, RoomLoad } from './load';

type Loads = Map<number, RoomLoad | null>;

/**
 * What was found before for a lot none of whose bins are placed yet, in a room as it stands: the search asks the same of
 * most rooms in every round, since a round changes few of them. Only saves time. A memo is of one problem. What it gives
 * out is by lot, null where the lot does not fit, and to be added to.
 */
export class Memo {
  private readonly inEmpty: (Loads | undefined)[] = [];

  constructor(private readonly regimes: number) {}

  /** Offers of a room that holds this. */
  of({ tried }: RoomLoad): Offers {
    let { offers } = tried;
    if (tried.by !== this || !offers) {
      offers = new Map();
      [tried.by, tried.offers] = [this, offers];
    }
    return offers;
  }

  /** Loads of an empty room, each of one lot. */
  ofEmpty(room: number, regime: number): Loads {
    const at = room * this.regimes + regime;
    let known = this.inEmpty[at];
    if (!known) {
      known = new Map();
      this.inEmpty[at] = known;
    }
    return known;
  }
}
