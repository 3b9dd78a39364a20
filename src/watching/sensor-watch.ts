import type { Minute } from '../readings/types';
import { levelLimits, sensorLimits } from './limits';
import { median } from './median';
import type { Sighting, WatchedQuantity } from './types';

/** What watching one sensor goes on from. Plain data. */
export interface SensorState {
  /** The value that is being repeated, since when, and how many readings have it. */
  value: number | null;
  since: Minute;
  last: Minute;
  count: number;
  /** Of pairs of readings in a row, those that were the same. */
  pairs: number;
  same: number;
  stuck: Sighting | null;
  /** The last readings: time and value. */
  recent: [Minute, number][];
  /** How far readings in a row lie apart, the middle of it. */
  scatter: number;
  jumps: [Minute, number][];
  jumping: Sighting | null;
}

const MINUTES_AN_HOUR = 60;
const NEIGHBOURS = 2;
const JUMPS_KEPT = 20;
/** Pairs that are taken to have been read before the record begins: three in five the same, as on a coarse display. */
const PRIOR_PAIRS = 100;
const PRIOR_SAME = 60;
/** By how much a wider step widens the scatter, and a narrower one narrows it: so it comes to the middle of all steps. */
const SCATTER_LEARNS = 0.02;

export function newSensor(quantity: WatchedQuantity): SensorState {
  return {
    value: null,
    since: 0,
    last: 0,
    count: 0,
    pairs: PRIOR_PAIRS,
    same: PRIOR_SAME,
    stuck: null,
    recent: [],
    scatter: levelLimits[quantity].noise.value,
    jumps: [],
    jumping: null,
  };
}

/** Watches the sensor itself: a value that stands still, and readings that leave their neighbours and come back. */
export class SensorWatch {
  private readonly least: { readonly jump: number; readonly noise: number };

  constructor(
    private readonly state: SensorState,
    private readonly quantity: WatchedQuantity,
    private readonly fill: string,
    private readonly closed: (sighting: Sighting) => void,
  ) {
    const { jump, noise } = levelLimits[quantity];
    this.least = { jump: jump.value, noise: noise.value };
  }

  get isStuck(): boolean {
    return this.state.stuck !== null;
  }

  take(time: Minute, value: number): void {
    this.standsStill(time, value);
    this.jumps(time, value);
    this.state.last = time;
  }

  stop(): void {
    const { state } = this;
    if (state.stuck) this.closed({ ...state.stuck, until: state.last });
    if (state.jumping) this.closed({ ...state.jumping, until: state.last });
    Object.assign(state, newSensor(this.quantity));
  }

  /**
   * A run of equal readings is told once the record's own scatter would hardly ever make one so long: with `p` for the
   * share of readings that repeat the one before, the chance of a run is p to the power of its length.
   */
  private standsStill(time: Minute, value: number): void {
    const { state } = this;
    if (state.value !== value) {
      if (state.stuck) this.closed({ ...state.stuck, until: state.last });
      // A run counts for how often readings repeat only where it was no fault.
      if (!state.stuck && state.value !== null)
        [state.pairs, state.same] = [state.pairs + state.count, state.same + state.count - 1];
      [state.stuck, state.value, state.since, state.count] = [null, value, time, 1];
      return;
    }
    state.count++;
    const hours = (time - state.since) / MINUTES_AN_HOUR;
    if (state.stuck) {
      state.stuck = { ...state.stuck, size: hours };
      return;
    }
    const { stuckHours, stuckReadings, stuckChance } = sensorLimits;
    const repeats = Math.min(0.999, state.same / state.pairs);
    const isOdd = (state.count - 1) * Math.log(repeats) < Math.log(stuckChance);
    if (isOdd && hours >= stuckHours.value && state.count >= stuckReadings.value)
      state.stuck = {
        kind: 'sensor-stuck',
        fill: this.fill,
        quantity: this.quantity,
        from: state.since,
        told: time,
        size: hours,
        read: value,
      };
  }

  private jumps(time: Minute, value: number): void {
    const { state } = this;
    const { recent } = state;
    const before = recent.at(-1);
    recent.push([time, value]);
    if (before) {
      const isWider = Math.abs(value - before[1]) > state.scatter;
      state.scatter = Math.max(
        this.least.noise,
        state.scatter * (isWider ? 1 + SCATTER_LEARNS : 1 / (1 + SCATTER_LEARNS)),
      );
    }
    if (recent.length < 2 * NEIGHBOURS + 1) return;
    this.judge(time);
    recent.shift();
  }

  /** The middle one of the last five readings, beside the two before and the two after it. */
  private judge(now: Minute): void {
    const { state } = this;
    const [time, value] = state.recent[NEIGHBOURS] ?? [0, 0];
    const { jump, noise } = this.least;
    // Close to the readings right before and after it, it is no jump.
    const step = (index: number) => Math.abs(value - (state.recent[index]?.[1] ?? value));
    if (state.jumps.length === 0 && step(1) < jump / 2 && step(3) < jump / 2) return;
    const neighbours = state.recent.filter((_, index) => index !== NEIGHBOURS).map(([, read]) => read);
    const off = Math.abs(value - median(neighbours));
    const { jumps, jumpHours, jumpScatter } = sensorLimits;
    const least = Math.max(jump, jumpScatter * Math.max(noise, state.scatter));
    // Of four neighbours two may be jumps themselves: the middle two have to agree.
    const [, low = 0, high = 0] = [...neighbours].sort((a, b) => a - b);
    const isJump = off > least && high - low < off / 2;
    if (isJump) state.jumps = [...state.jumps, [time, off] as [Minute, number]].slice(-JUMPS_KEPT);
    const since = now - jumpHours.value * MINUTES_AN_HOUR;
    state.jumps = state.jumps.filter(([at]) => at >= since);
    if (state.jumping && state.jumps.length === 0) {
      this.closed({ ...state.jumping, until: now });
      state.jumping = null;
    }
    if (!isJump || state.jumps.length < jumps.value) return;
    const count = state.jumps.length;
    state.jumping = state.jumping
      ? { ...state.jumping, size: Math.max(state.jumping.size, count) }
      : {
          kind: 'sensor-jumps',
          fill: this.fill,
          quantity: this.quantity,
          from: state.jumps[0]?.[0] ?? time,
          told: now,
          size: count,
          read: value,
          expected: median(neighbours),
        };
  }
}
