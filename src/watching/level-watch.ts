import type { Minute } from '../readings/types';
import { levelLimits } from './limits';
import { median } from './median';
import type { Sighting, WatchedQuantity, WatchKind } from './types';

/** One direction of a quantity. Plain data. */
interface SideState {
  /** Daily distances beyond what is allowed, added up (CUSUM); 0 while nothing is the matter. */
  sum: number;
  /** What is going on. */
  open: Sighting | null;
  /** Since when days have been in order again. */
  calmFrom: Minute | null;
  calmDays: number;
}

/** What watching one level goes on from. Plain data. */
export interface LevelState {
  /** The last readings: time, distance from the expected, the expected. */
  recent: [Minute, number, number][];
  /** The day that is going on. */
  day: number | null;
  distances: number[];
  expected: number[];
  /** The last whole days: day and distance, the room's own level taken off. */
  days: [number, number][];
  /** Distances of the first days of holding, and what they come to. */
  ownDays: number[];
  own: number | null;
  above: SideState;
  below: SideState;
}

const MINUTES_A_DAY = 1440;
const RECENT = 5;
const LEAST_RECENT = 3;
const RECENT_MINUTES = 36 * 60;
const OWN_DAYS = 5;
const CALM_DAYS = 2;
const DAYS_KEPT = 40;
/** Days count to a rise from this share of its size on. */
const SHARE_OF_RISE = 1 / 3;
/** A day on which the expected level moves by more than this share of what is told at once is no day to judge by. */
const MOVING = 0.6;
/** No single day brings the sum to its limit, so that one bad reading a day does not. */
const MOST_OF_A_DAY = 0.6;

export function newLevel(): LevelState {
  return {
    recent: [],
    day: null,
    distances: [],
    expected: [],
    days: [],
    ownDays: [],
    own: null,
    above: newSide(),
    below: newSide(),
  };
}

function newSide(): SideState {
  return { sum: 0, open: null, calmFrom: null, calmDays: 0 };
}

/**
 * Watches the distance of a level from the expected one, reading by reading, in two ways: the middle of the last five
 * readings against a wide limit (told within hours), and the middle of each day against a narrow one, added up over
 * days (told within days). Middles, so that single wild readings do not count.
 */
export class LevelWatch {
  private readonly limits;

  constructor(
    private readonly state: LevelState,
    private readonly quantity: WatchedQuantity,
    private readonly fill: string,
    private readonly closed: (sighting: Sighting) => void,
    /** What the fruit bears. Below the least it is told at once, whatever is expected. */
    private readonly bears: { readonly least?: number | undefined; readonly most?: number | undefined } = {},
  ) {
    const { atOnce, allowed, addsUpTo, ownLevel } = levelLimits[quantity];
    this.limits = {
      above: atOnce.above.value,
      below: atOnce.below.value,
      atOnce: Math.min(atOnce.above.value, atOnce.below.value),
      allowed: allowed.value,
      addsUpTo: addsUpTo.value,
      own: ownLevel.value,
    };
  }

  /** `isTrusted` is false while the sensor stands still: its readings open nothing. */
  take(time: Minute, read: number, expected: number, isTrusted: boolean): void {
    const { state } = this;
    const day = Math.floor(time / MINUTES_A_DAY);
    if (state.day !== day) {
      this.endDay();
      state.day = day;
    }
    state.distances.push(read - expected);
    state.expected.push(expected);
    const { recent } = state;
    recent.push([time, read - expected, expected]);
    while (recent.length > RECENT || time - (recent[0]?.[0] ?? time) > RECENT_MINUTES) recent.shift();
    const isFar = Math.abs(read - expected) > this.limits.atOnce || read < (this.bears.least ?? 0);
    if (isFar && isTrusted && recent.length >= LEAST_RECENT) this.atOnce(time);
  }

  /** Nothing is expected any more: what is going on ends here. */
  stop(time: Minute): void {
    this.endDay();
    for (const side of [this.state.above, this.state.below]) if (side.open) this.close(side, time);
    Object.assign(this.state, newLevel());
  }

  private atOnce(time: Minute): void {
    const { recent } = this.state;
    const read = median(recent.map(([, distance]) => distance));
    const middle = read - (this.state.own ?? 0);
    const expected = recent.map(([, , level]) => level);
    const moved = Math.max(...expected) - Math.min(...expected);
    const level = expected.at(-1) ?? 0;
    const { least } = this.bears;
    const isBelowLeast = least !== undefined && read + level < least && read < 0;
    if (middle > this.limits.above + moved) this.tell('above', this.beginning(1), time, middle);
    if (-middle > this.limits.below + moved || isBelowLeast)
      this.tell('below', this.beginning(-1), time, middle);
  }

  /** The first of the last readings that is clearly off. */
  private beginning(sign: number): Minute {
    const { recent } = this.state;
    const { own } = this.state;
    const least = this.limits.allowed;
    return (recent.find(([, distance]) => sign * (distance - (own ?? 0)) > least) ?? recent[0])?.[0] ?? 0;
  }

  /** Where the last days all were off the same way, by a good share of what it is now: the first of them. */
  private firstDay(sign: number, size: number): Minute | undefined {
    const least = Math.max(this.limits.allowed, SHARE_OF_RISE * size);
    const { days } = this.state;
    let first: number | undefined;
    for (let index = days.length - 1; index >= 0; index--) {
      const [day, off] = days[index] ?? [0, 0];
      if (sign * off <= least) break;
      first = day * MINUTES_A_DAY;
    }
    return first;
  }

  private endDay(): void {
    const { state, limits } = this;
    const { day, distances, expected } = state;
    if (day === null || distances.length === 0) return;
    const middle = median(distances);
    const isMoving = Math.max(...expected) - Math.min(...expected) > MOVING * limits.above;
    [state.distances, state.expected] = [[], []];
    if (isMoving) return;
    this.learnOwn(middle);
    const off = middle - (state.own ?? 0);
    state.days.push([day, off]);
    if (state.days.length > DAYS_KEPT) state.days.shift();
    this.addDay('above', day, off);
    this.addDay('below', day, -off);
  }

  /** The room's own level in its first days is its instruments', up to a limit: changes are looked for from there. */
  private learnOwn(middle: number): void {
    const { state, limits } = this;
    if (state.own !== null) return;
    state.ownDays.push(middle);
    if (state.ownDays.length < OWN_DAYS) return;
    state.own = Math.max(-limits.own, Math.min(limits.own, median(state.ownDays)));
    state.ownDays = [];
  }

  private addDay(which: 'above' | 'below', day: number, off: number): void {
    const { limits } = this;
    const side = this.state[which];
    const [starts, ends] = [day * MINUTES_A_DAY, (day + 1) * MINUTES_A_DAY];
    const beyond = off - limits.allowed;
    if (side.open) {
      this.goOn(side, starts, beyond, which === 'above' ? off : -off);
      return;
    }
    if (this.state.own === null && Math.abs(off) < limits.own + limits.allowed) return;
    side.sum = Math.max(0, side.sum + Math.min(beyond, MOST_OF_A_DAY * limits.addsUpTo));
    if (side.sum > limits.addsUpTo) this.tell(which, starts, ends, which === 'above' ? off : -off);
  }

  private goOn(side: SideState, starts: Minute, beyond: number, off: number): void {
    if (!side.open) return;
    if (beyond > 0) {
      [side.calmDays, side.calmFrom] = [0, null];
      side.open = { ...side.open, latest: off };
      this.grow(side, off);
      return;
    }
    side.calmFrom ??= starts;
    side.calmDays++;
    if (side.calmDays >= CALM_DAYS) this.close(side, side.calmFrom);
  }

  private tell(which: 'above' | 'below', from: Minute, told: Minute, off: number): void {
    const side = this.state[which];
    if (!side.open) {
      side.open = {
        kind: this.kindOf(which),
        fill: this.fill,
        quantity: this.quantity,
        from: Math.min(from, this.firstDay(which === 'above' ? 1 : -1, Math.abs(off)) ?? from),
        told,
        size: 0,
        latest: off,
      };
    }
    [side.calmDays, side.calmFrom] = [0, null];
    this.grow(side, off);
  }

  private grow(side: SideState, off: number): void {
    if (!side.open || Math.abs(off) <= side.open.size) return;
    const expected = this.state.recent.at(-1)?.[2];
    side.open = { ...side.open, size: Math.abs(off) };
    if (expected === undefined) return;
    const read = expected + off;
    const limit = this.limitBeyond(off, read);
    side.open = { ...side.open, expected, read, ...(limit === undefined ? {} : { limit }) };
  }

  /** The limit of the fruit on this side, where `read` is beyond it. */
  private limitBeyond(off: number, read: number): number | undefined {
    const { least = Number.NEGATIVE_INFINITY, most = Number.POSITIVE_INFINITY } = this.bears;
    if (off > 0) return read > most ? most : undefined;
    return read < least ? least : undefined;
  }

  private close(side: SideState, until: Minute): void {
    if (side.open) this.closed({ ...side.open, until });
    Object.assign(side, newSide());
  }

  private kindOf(which: 'above' | 'below'): WatchKind {
    return `${this.quantity}-${which === 'above' ? 'high' : 'low'}`;
  }
}
