import type { Minute, RoomReadings } from '../readings/types';
import { type BreathingState, BreathingWatch, newBreathing } from './breathing-watch';
import { type LevelState, LevelWatch, newLevel } from './level-watch';
import { DEFICIENT } from './limits';
import { median } from './median';
import { newSensor, type SensorState, SensorWatch } from './sensor-watch';
import { TrackReader } from './track';
import {
  type ExpectedFill,
  type Sighting,
  type Track,
  type WatchedQuantity,
  watchedQuantities,
} from './types';

type Each<T> = Record<WatchedQuantity, T>;

/** What watching a room goes on from: plain data that a shell can keep as JSON. */
export interface RoomWatchState {
  readonly room: string;
  /** The last reading. */
  last: Minute | null;
  /** The fill it belongs to. */
  fill: string | null;
  levels: Each<LevelState>;
  sensors: Each<SensorState>;
  breathing: BreathingState;
  /** The last day with a reading, counted from sealing. */
  lastDays: Each<number | null>;
  /** Oxygen since the room was opened: the last readings, and what was seen. */
  openedRecent: [Minute, number][];
  openedLow: Sighting | null;
  /** What was seen and is over. */
  seen: Sighting[];
}

const MINUTES_A_DAY = 1440;
/** An opened room of which nobody records that it is empty is watched for so long. */
const EMPTYING_DAYS = 42;

export function newRoomWatch(room: string): RoomWatchState {
  return {
    room,
    last: null,
    fill: null,
    levels: each(newLevel),
    sensors: each(newSensor),
    breathing: newBreathing(),
    lastDays: each(() => null),
    openedRecent: [],
    openedLow: null,
    seen: [],
  };
}

function each<T>(make: (quantity: WatchedQuantity) => T): Each<T> {
  return {
    oxygen: make('oxygen'),
    'carbon-dioxide': make('carbon-dioxide'),
    temperature: make('temperature'),
  };
}

/**
 * Watches on: the state after more readings, all of them later than those before. `fills` are the room's, the first to
 * come first. The state that was given is not changed. Reading a record in pieces comes to the same as at one go.
 */
export function watchMore(
  fills: readonly ExpectedFill[],
  before: RoomWatchState,
  { times, values }: RoomReadings,
): RoomWatchState {
  const state = structuredClone(before);
  let watch: FillWatch | undefined;
  let next = fills.findIndex(({ fill }) => fill === state.fill) + 1;
  const current = fills[next - 1];
  if (current) watch = new FillWatch(current, state);
  for (let index = 0; index < times.length; index++) {
    const time = times[index] ?? 0;
    for (let fill = fills[next]; fill && fill.begins <= time; fill = fills[next]) {
      watch?.end(fill.begins);
      state.fill = fill.fill;
      watch = new FillWatch(fill, state);
      next++;
    }
    for (const quantity of watchedQuantities) {
      const value = values[quantity][index] ?? Number.NaN;
      // Kept in single precision: the digits of the display, so that equal readings are equal.
      if (!Number.isNaN(value)) watch?.take(quantity, time, Math.round(value * 1e4) / 1e4);
    }
    state.last = time;
  }
  return state;
}

/** All that was seen, what is going on too. `now` ends gaps that are still open, where the record as a whole is later. */
export function sightingsOf(
  state: RoomWatchState,
  fills: readonly ExpectedFill[],
  now: Minute = state.last ?? 0,
): Sighting[] {
  const { levels, sensors, breathing, openedLow, seen } = state;
  const open = [
    ...watchedQuantities.flatMap((quantity) => [
      levels[quantity].above.open,
      levels[quantity].below.open,
      sensors[quantity].stuck,
      sensors[quantity].jumping,
    ]),
    breathing.open,
    openedLow,
  ].filter((one) => one !== null);
  const fill = fills.find((one) => one.fill === state.fill);
  const going = fill ? [...open.map((one) => endedBy(one, fill, now)), ...openGaps(state, fill, now)] : open;
  return [...seen, ...going].sort((a, b) => a.from - b.from);
}

/** What was going on when a room was opened, or was empty, is over though no reading came after it. */
function endedBy(sighting: Sighting, { opened, emptied }: ExpectedFill, now: Minute): Sighting {
  const ofAir = sighting.quantity === 'temperature' || sighting.kind === 'opened-room-low-oxygen';
  const until = ofAir ? emptied : opened;
  return until === undefined || until > now ? sighting : { ...sighting, until };
}

/** Whole days without a reading up to now. */
function openGaps({ lastDays }: RoomWatchState, fill: ExpectedFill, now: Minute): Sighting[] {
  const until = Math.min(now, fill.opened ?? now);
  const day = Math.floor(until / MINUTES_A_DAY);
  return watchedQuantities.flatMap((quantity) => {
    const last = lastDays[quantity];
    return last === null || day - last <= 1 ? [] : [gap(fill.fill, quantity, last, day, until)];
  });
}

function gap(fill: string, quantity: WatchedQuantity, last: number, day: number, told: Minute): Sighting {
  const from = (last + 1) * MINUTES_A_DAY;
  return { kind: 'record-gap', fill, quantity, from, told, size: day - last - 1 };
}

/** Watches the readings of one fill. */
class FillWatch {
  private readonly tracks: Each<TrackReader | undefined>;
  private readonly levels: Each<LevelWatch>;
  private readonly sensors: Each<SensorWatch>;
  private readonly breathing: BreathingWatch | undefined;
  private readonly empty: Minute;

  constructor(
    private readonly fill: ExpectedFill,
    private readonly state: RoomWatchState,
  ) {
    const closed = (sighting: Sighting) => state.seen.push(sighting);
    const track = (of: Track | undefined) => of && new TrackReader(of);
    this.tracks = {
      oxygen: track(fill.oxygen),
      'carbon-dioxide': track(fill.carbonDioxide),
      temperature: track(fill.temperature),
    };
    const { fill: id, leastOxygen, mostCarbonDioxide } = fill;
    const bears = {
      oxygen: { least: leastOxygen },
      'carbon-dioxide': { most: mostCarbonDioxide },
      temperature: {},
    };
    this.levels = each(
      (quantity) => new LevelWatch(state.levels[quantity], quantity, id, closed, bears[quantity]),
    );
    this.sensors = each((quantity) => new SensorWatch(state.sensors[quantity], quantity, id, closed));
    this.breathing = fill.breathing && new BreathingWatch(state.breathing, id, fill.breathing, closed);
    const { opened } = fill;
    this.empty =
      fill.emptied ??
      (opened === undefined ? Number.POSITIVE_INFINITY : opened + EMPTYING_DAYS * MINUTES_A_DAY);
  }

  take(quantity: WatchedQuantity, time: Minute, value: number): void {
    this.countDay(quantity, time);
    const { holds = Number.POSITIVE_INFINITY, cold, opened = Number.POSITIVE_INFINITY } = this.fill;
    if (quantity === 'temperature') {
      if (time >= this.empty) this.stop(quantity, time);
      else if (time >= cold) this.watch(quantity, time, value);
      return;
    }
    if (time >= opened) {
      this.stop(quantity, opened);
      if (quantity === 'oxygen' && time < this.empty) this.afterOpening(time, value);
    } else if (time >= holds) {
      this.watch(quantity, time, value);
      if (quantity === 'carbon-dioxide' && !this.sensors[quantity].isStuck)
        this.breathing?.take(time, value, this.state.sensors[quantity].scatter);
    }
  }

  /** The next fill begins. */
  end(time: Minute): void {
    for (const quantity of watchedQuantities) this.stop(quantity, time);
    const { state } = this;
    if (state.openedLow) state.seen.push({ ...state.openedLow, until: time });
    [state.openedLow, state.openedRecent, state.lastDays] = [null, [], each(() => null)];
  }

  private watch(quantity: WatchedQuantity, time: Minute, value: number): void {
    const sensor = this.sensors[quantity];
    sensor.take(time, value);
    const expected = this.tracks[quantity]?.at(time) ?? Number.NaN;
    if (!Number.isNaN(expected)) this.levels[quantity].take(time, value, expected, !sensor.isStuck);
  }

  private stop(quantity: WatchedQuantity, time: Minute): void {
    const { levels, sensors } = this.state;
    if (levels[quantity].day === null && sensors[quantity].value === null) return;
    this.levels[quantity].stop(time);
    this.sensors[quantity].stop();
    if (quantity === 'carbon-dioxide') this.breathing?.stop(time);
  }

  /** A room on record as opened holds air: low oxygen there means that the record or the ventilating is wrong. */
  private afterOpening(time: Minute, value: number): void {
    const { state, fill } = this;
    if (time < (fill.opened ?? 0) + MINUTES_A_DAY) return;
    const recent = [...state.openedRecent, [time, value] as [Minute, number]].slice(-3);
    state.openedRecent = recent;
    const middle = median(recent.map(([, read]) => read));
    if (recent.length < 3) return;
    if (middle >= DEFICIENT) {
      if (state.openedLow) state.seen.push({ ...state.openedLow, until: recent[0]?.[0] ?? time });
      state.openedLow = null;
      return;
    }
    const size = DEFICIENT - middle;
    const at = { size, read: middle, expected: DEFICIENT };
    state.openedLow = state.openedLow
      ? size > state.openedLow.size
        ? { ...state.openedLow, ...at }
        : state.openedLow
      : {
          kind: 'opened-room-low-oxygen',
          fill: fill.fill,
          quantity: 'oxygen',
          from: recent[0]?.[0] ?? time,
          told: time,
          ...at,
        };
  }

  /** The law wants a reading of each on each day from sealing to opening. */
  private countDay(quantity: WatchedQuantity, time: Minute): void {
    const { lastDays, seen } = this.state;
    const { sealed, opened = Number.POSITIVE_INFINITY, fill } = this.fill;
    if (sealed === undefined || time < sealed) return;
    const until = Math.min(time, opened);
    const day = Math.floor(until / MINUTES_A_DAY);
    const last = lastDays[quantity] ?? Math.floor(sealed / MINUTES_A_DAY);
    if (day - last > 1) seen.push({ ...gap(fill, quantity, last, day, time), until: day * MINUTES_A_DAY });
    lastDays[quantity] = time >= opened ? Number.MAX_SAFE_INTEGER : day;
  }
}
