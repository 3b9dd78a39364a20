import type { Day } from '../plan/dates';
import { roomCelsius } from './course/fruit-temperature';
import type { RoomTemperature } from './course/types';

/** Hours after the last bin past which fruit that is still warm is given up on. */
const MOST_HOURS = 24 * 60;
/** One hour is short against any half-time, and the step itself is exact. */
const STEP_HOURS = 1;

/** What a room's cooling is counted from, in plain numbers; hours from the start of the first bin's day. */
export interface MarchRoom {
  readonly firstDay: Day;
  /** Bins of each day, at the start of the day. */
  readonly loads: readonly number[];
  readonly fruitKgInBin: number;
  /** Heat of a full bin for each kelvin, kJ. */
  readonly heatOfBin: number;
  readonly fieldCelsius: number;
  readonly roomTemperature: RoomTemperature;
  readonly halfTimeHours: number;
  readonly lag: number;
  /** Heat of respiration in air at a temperature. */
  readonly wattsPerKg: (celsius: number) => number;
  /** Heat through the fabric, of air changes, fans and what works in the room, while loading and after. */
  readonly loadingKw: number;
  readonly holdingKw: number;
  readonly capacityKw: (day: Day) => number;
}

export interface MarchedBatch {
  readonly day: Day;
  readonly bins: number;
  readonly loadedAtHours: number;
  /** When it has lost seven eighths of its difference to the room's first temperature. */
  readonly sevenEighthsAtHours: number | undefined;
  readonly ends: readonly { readonly day: Day; readonly celsius: number }[];
}

/** Heat of a day, mean kW: what the fruit would give up by the law with all else, and what the cooler took. */
export interface MarchedDay {
  readonly day: Day;
  readonly wantedKw: number;
  readonly takenKw: number;
}

export interface Marched {
  readonly batches: readonly MarchedBatch[];
  readonly days: readonly MarchedDay[];
  readonly shortHours: number;
}

interface Batch {
  readonly day: Day;
  readonly bins: number;
  readonly loadedAtHours: number;
  celsius: number;
  sevenEighthsAtHours: number | undefined;
  readonly ends: { readonly day: Day; readonly celsius: number }[];
}

/** What all of a room wants in an hour, and how far each batch would go by the law. */
interface Wanted {
  readonly here: readonly Batch[];
  readonly drops: readonly number[];
  readonly sensibleKw: number;
  readonly otherKw: number;
}

/** A room whose cooler is its own: hour by hour until the last batch is seven-eighths cool and its day is over. */
export function march(room: MarchRoom): Marched {
  const one = new RoomMarch(room);
  for (let hours = 0; !one.over(hours); hours += STEP_HOURS)
    one.step(hours, room.capacityKw(one.dayAt(hours)));
  return one.result();
}

/**
 * Rooms that draw on one plant, hour by hour together: each within its own cooler, and where all of them together want
 * more than the plant has, each gets the same part of what it wants. A cold room goes on wanting what holds it.
 */
export function marchTogether(rooms: readonly MarchRoom[], plantKw: number): readonly Marched[] {
  const marches = rooms.map((room) => ({ room, one: new RoomMarch(room), over: false }));
  const firstDay = Math.min(...rooms.map((room) => room.firstDay));
  for (let hours = 0; marches.some(({ over }) => !over); hours += STEP_HOURS) {
    const wants = marches.map((each) => {
      const own = hours - 24 * (each.room.firstDay - firstDay);
      each.over ||= own >= 0 && each.one.over(own);
      if (own < 0) return 0;
      if (each.over) return each.room.holdingKw;
      return Math.min(each.one.wantedKw(own), each.room.capacityKw(each.one.dayAt(own)));
    });
    const total = wants.reduce((sum, one) => sum + one, 0);
    const part = total > plantKw ? plantKw / total : 1;
    marches.forEach(({ room, one, over }, index) => {
      const own = hours - 24 * (room.firstDay - firstDay);
      if (own >= 0 && !over) one.step(own, (wants[index] ?? 0) * part);
    });
  }
  return marches.map(({ one }) => one.result());
}

class RoomMarch {
  readonly #room: MarchRoom;
  readonly #batches: readonly Batch[];
  readonly #days: { day: Day; wantedKw: number; takenKw: number }[] = [];
  #shortHours = 0;

  constructor(room: MarchRoom) {
    this.#room = room;
    this.#batches = room.loads.map((bins, index) => ({
      day: room.firstDay + index,
      bins,
      loadedAtHours: 24 * index,
      celsius: room.fieldCelsius,
      sevenEighthsAtHours: undefined,
      ends: [],
    }));
  }

  dayAt(hours: number): Day {
    return this.#room.firstDay + Math.floor(hours / 24);
  }

  over(hours: number): boolean {
    if (hours % 24 !== 0) return false;
    const cold = this.#batches.every(({ sevenEighthsAtHours }) => sevenEighthsAtHours !== undefined);
    return cold || hours >= 24 * this.#room.loads.length + MOST_HOURS;
  }

  wantedKw(hours: number): number {
    const { sensibleKw, otherKw } = this.#wanted(hours);
    return Math.max(0, sensibleKw + otherKw);
  }

  result(): Marched {
    return { batches: this.#batches, days: this.#days, shortHours: this.#shortHours };
  }

  /**
   * One hour. Each batch goes its way by the law; where all heat is more than the cooler takes, all of them go the
   * same part of their way, and they warm where the cooler does not even take what comes in beside them.
   */
  step(hours: number, mostKw: number): void {
    const wanted = this.#wanted(hours);
    const { here, drops, sensibleKw, otherKw } = wanted;
    const wantedKw = sensibleKw + otherKw;
    const short = wantedKw > mostKw * (1 + 1e-9);
    const part = short ? Math.max(0, mostKw - otherKw) / sensibleKw : 1;
    const warming = short && mostKw < otherKw ? this.#warming(here, otherKw - mostKw) : 0;
    here.forEach((batch, index) => {
      const before = batch.celsius;
      batch.celsius =
        warming > 0
          ? Math.min(Math.max(before, this.#room.fieldCelsius), before + warming)
          : before - part * (drops[index] ?? 0);
      noteSevenEighths(this.#room, batch, before, hours);
    });
    this.#shortHours += short ? STEP_HOURS : 0;
    this.#note(hours, Math.max(0, wantedKw), Math.max(0, Math.min(wantedKw, mostKw)));
  }

  #wanted(hours: number): Wanted {
    const room = this.#room;
    const here = this.#batches.filter(({ loadedAtHours }) => loadedAtHours <= hours);
    const target = roomCelsius(room.roomTemperature, hours + STEP_HOURS / 2);
    const rate = Math.LN2 / room.halfTimeHours;
    const wait = Math.log(Math.max(room.lag, 1)) / rate;
    const drops = here.map(({ celsius, loadedAtHours }) => {
      const cooling = Math.min(STEP_HOURS, Math.max(0, hours + STEP_HOURS - loadedAtHours - wait));
      return (celsius - target) * (1 - Math.exp(-rate * cooling));
    });
    let [sensibleKw, respirationKw] = [0, 0];
    here.forEach(({ bins, celsius }, index) => {
      const drop = drops[index] ?? 0;
      sensibleKw += (bins * room.heatOfBin * drop) / (STEP_HOURS * 3600);
      respirationKw += (bins * room.fruitKgInBin * room.wattsPerKg(celsius - drop / 2)) / 1000;
    });
    const loading = hours < 24 * room.loads.length;
    return { here, drops, sensibleKw, otherKw: respirationKw + (loading ? room.loadingKw : room.holdingKw) };
  }

  /** Kelvins by which heat that nothing takes away warms all the fruit in an hour. */
  #warming(here: readonly Batch[], kilowatts: number): number {
    const heat = here.reduce((sum, { bins }) => sum + bins * this.#room.heatOfBin, 0);
    return (kilowatts * STEP_HOURS * 3600) / heat;
  }

  #note(hours: number, wantedKw: number, takenKw: number): void {
    const index = Math.floor(hours / 24);
    const day = this.#days[index] ?? { day: this.dayAt(hours), wantedKw: 0, takenKw: 0 };
    this.#days[index] = day;
    day.wantedKw += (wantedKw * STEP_HOURS) / 24;
    day.takenKw += (takenKw * STEP_HOURS) / 24;
    if ((hours + STEP_HOURS) % 24 !== 0) return;
    for (const { ends, celsius, loadedAtHours } of this.#batches) {
      if (loadedAtHours <= hours) ends.push({ day: day.day, celsius });
    }
  }
}

/** Between two hours the difference falls exponentially, so that the time is exact where the law alone decides. */
function noteSevenEighths(room: MarchRoom, batch: Batch, before: number, hours: number): void {
  if (batch.sevenEighthsAtHours !== undefined) return;
  const target = room.roomTemperature.knots[0]?.celsius ?? 0;
  const eighth = (room.fieldCelsius - target) / 8;
  const [from, to] = [before - target, batch.celsius - target];
  if (to > eighth + 1e-12) return;
  const share = from > eighth && to > 0 ? Math.log(from / eighth) / Math.log(from / to) : 0;
  batch.sevenEighthsAtHours = Math.max(batch.loadedAtHours, hours + share * STEP_HOURS);
}
