import type { Day } from '../plan/dates';
import { roomCelsius } from './course/fruit-temperature';
import type { RoomTemperature } from './course/types';

/** Hours after the last bin past which fruit that is still warm is given up on. */
const MOST_HOURS = 24 * 60;
/** Fruit whose difference to the room is no more than this part of what it was has settled: six half-times. */
const SETTLED_PART = 64;
/** One hour is short against any half-time, and the step itself is exact. */
const STEP_HOURS = 1;

/** What a room's cooling is counted from, in plain numbers; hours from the start of the first bin's day. */
export interface MarchRoom {
  readonly firstDay: Day;
  /** Bins of each day, at the start of the day, and how warm they come in; a day may bring none. */
  readonly loads: readonly { readonly bins: number; readonly celsius: number }[];
  readonly fruitKgInBin: number;
  /** Heat of a full bin for each kelvin, kJ. */
  readonly heatOfBin: number;
  readonly roomTemperature: RoomTemperature;
  readonly halfTimeHours: number;
  readonly lag: number;
  /** Heat of respiration in air at a temperature. */
  readonly wattsPerKg: (celsius: number) => number;
  /** Heat through the fabric, of air changes, fans and what works in the room, while loading and until the fruit has settled. */
  readonly loadingKw: number;
  readonly coolingKw: number;
  readonly capacityKw: (day: Day) => number;
  /** What the room wants once its fruit has settled. */
  readonly coldKw: (day: Day) => number;
}

export interface MarchedBatch {
  readonly day: Day;
  readonly bins: number;
  readonly loadedAtHours: number;
  /** When it has lost seven eighths of its difference to the room's first temperature. */
  readonly sevenEighthsAtHours: number | undefined;
  readonly ends: readonly { readonly day: Day; readonly celsius: number }[];
}

/** Heat of a day, mean kW. */
export interface MarchedDay {
  readonly day: Day;
  /** What fruit and bins would give up by the law with all else: the sum of the next three. */
  readonly wantedKw: number;
  readonly fruitKw: number;
  readonly respirationKw: number;
  /** Fabric, air changes, fans, and what works in the room. */
  readonly besideKw: number;
  /** What the room's cooler asks of the plant for it: no more than the cooler takes. */
  readonly askedKw: number;
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
  readonly fieldCelsius: number;
  celsius: number;
  sevenEighthsAtHours: number | undefined;
  readonly ends: { readonly day: Day; readonly celsius: number }[];
}

/** A room whose cooler is its own: hour by hour until its fruit has settled and the day is over. */
export function march(room: MarchRoom): Marched {
  const one = new RoomMarch(room);
  for (let hours = 0; !one.over(hours); hours += STEP_HOURS) one.take(hours, one.ask(hours));
  return one.result();
}

/**
 * Rooms that draw on one plant, hour by hour together: each within its own cooler, and where all of them together want
 * more than the plant has, each gets the same part of what it wants. A cold room goes on wanting what holds it.
 */
export function marchTogether(rooms: readonly MarchRoom[], plantKw: number): readonly Marched[] {
  const all = rooms.map((room) => ({ room, one: new RoomMarch(room) }));
  const firstDay = Math.min(...rooms.map((room) => room.firstDay));
  let filling = [...all];
  const cold: MarchRoom[] = [];
  let coldKw = 0;
  for (let hours = 0; filling.length > 0; hours += STEP_HOURS) {
    const day = firstDay + Math.floor(hours / 24);
    if (hours % 24 === 0) {
      filling = filling.filter(({ room, one }) => {
        const over = day >= room.firstDay && one.over(24 * (day - room.firstDay));
        if (over) cold.push(room);
        return !over;
      });
      coldKw = cold.reduce((sum, room) => sum + room.coldKw(day), 0);
    }
    const here = filling.filter(({ room }) => room.firstDay <= day);
    const asked = here.map(({ room, one }) => one.ask(hours - 24 * (room.firstDay - firstDay)));
    const total = asked.reduce((sum, one) => sum + one, coldKw);
    const part = total > plantKw ? plantKw / total : 1;
    here.forEach(({ room, one }, index) => {
      one.take(hours - 24 * (room.firstDay - firstDay), (asked[index] ?? 0) * part);
    });
  }
  return all.map(({ one }) => one.result());
}

class RoomMarch {
  readonly #room: MarchRoom;
  readonly #batches: readonly Batch[];
  readonly #days: MarchedDay[] = [];
  /** Sums of the day so far, in the order of a `MarchedDay`. */
  readonly #today = new Float64Array(6);
  readonly #rate: number;
  readonly #waitHours: number;
  #shortHours = 0;
  /** What the hour wants that was asked last: heat of the fruit, its respiration, the rest, and each batch's fall. */
  #fruitKw = 0;
  #respirationKw = 0;
  #besideKw = 0;
  readonly #drops: number[] = [];

  constructor(room: MarchRoom) {
    this.#room = room;
    this.#rate = Math.LN2 / room.halfTimeHours;
    this.#waitHours = Math.log(Math.max(room.lag, 1)) / this.#rate;
    this.#batches = room.loads.flatMap(({ bins, celsius }, index) =>
      bins > 0
        ? [
            {
              day: room.firstDay + index,
              bins,
              loadedAtHours: 24 * index,
              fieldCelsius: celsius,
              celsius,
              sevenEighthsAtHours: undefined,
              ends: [],
            },
          ]
        : [],
    );
  }

  /** At the end of a day: whether its fruit has settled, or is given up on. */
  over(hours: number): boolean {
    if (hours % 24 !== 0) return false;
    if (hours >= 24 * this.#room.loads.length + MOST_HOURS) return true;
    const target = firstTarget(this.#room);
    return this.#batches.every(
      ({ sevenEighthsAtHours, celsius, fieldCelsius }) =>
        sevenEighthsAtHours !== undefined &&
        celsius - target <= (fieldCelsius - target) / SETTLED_PART + 1e-12,
    );
  }

  result(): Marched {
    return { batches: this.#batches, days: this.#days, shortHours: this.#shortHours };
  }

  /** What the room's cooler asks for in the hour, kW. */
  ask(hours: number): number {
    const { heatOfBin, fruitKgInBin, wattsPerKg, loads, roomTemperature: line } = this.#room;
    const target = roomCelsius(line, hours + STEP_HOURS / 2);
    const inAnHour = 1 - Math.exp(-this.#rate * STEP_HOURS);
    let [fruit, respiration] = [0, 0];
    this.#batches.forEach(({ bins, celsius, loadedAtHours }, index) => {
      if (loadedAtHours > hours) return;
      const cooling = hours + STEP_HOURS - loadedAtHours - this.#waitHours;
      const way = cooling >= STEP_HOURS ? inAnHour : 1 - Math.exp(-this.#rate * Math.max(0, cooling));
      const drop = (celsius - target) * way;
      this.#drops[index] = drop;
      fruit += (bins * heatOfBin * drop) / (STEP_HOURS * 3600);
      respiration += (bins * fruitKgInBin * wattsPerKg(celsius - drop / 2)) / 1000;
    });
    const loading = hours < 24 * loads.length;
    this.#besideKw = loading ? this.#room.loadingKw : this.#room.coolingKw;
    this.#respirationKw = respiration;
    // Fruit colder than the room takes up heat, but no more of it is ever wanted than there is.
    this.#fruitKw = Math.max(fruit, -respiration - this.#besideKw);
    const day = this.#room.firstDay + Math.floor(hours / 24);
    return Math.min(this.#wantedKw(), this.#room.capacityKw(day));
  }

  /**
   * The hour that was asked for, with so much cooling. Each batch goes its way by the law; where all heat is more than
   * that, all of them go the same part of their way, and they warm where it does not even take what comes in beside
   * them.
   */
  take(hours: number, mostKw: number): void {
    const wanted = this.#wantedKw();
    const beside = this.#respirationKw + this.#besideKw;
    const short = wanted > mostKw * (1 + 1e-9);
    const part = short ? Math.max(0, mostKw - beside) / this.#fruitKw : 1;
    const here = this.#batches.filter(({ loadedAtHours }) => loadedAtHours <= hours);
    const warming = short && mostKw < beside && here.length > 0 ? this.#warming(here, beside - mostKw) : 0;
    here.forEach((batch, index) => {
      const before = batch.celsius;
      batch.celsius =
        warming > 0
          ? Math.min(Math.max(before, batch.fieldCelsius), before + warming)
          : before - part * (this.#drops[index] ?? 0);
      noteSevenEighths(this.#room, batch, before, hours);
    });
    this.#shortHours += short ? STEP_HOURS : 0;
    this.#note(hours, Math.min(wanted, mostKw));
  }

  #wantedKw(): number {
    return Math.max(0, this.#fruitKw + this.#respirationKw + this.#besideKw);
  }

  /** Kelvins by which heat that nothing takes away warms all the fruit in an hour. */
  #warming(here: readonly Batch[], kilowatts: number): number {
    const heat = here.reduce((sum, { bins }) => sum + bins * this.#room.heatOfBin, 0);
    return (kilowatts * STEP_HOURS * 3600) / heat;
  }

  /** Adds the hour to its day, which is complete with its last one. */
  #note(hours: number, takenKw: number): void {
    const day = this.#room.firstDay + Math.floor(hours / 24);
    const wanted = this.#wantedKw();
    const asked = Math.min(wanted, this.#room.capacityKw(day));
    const hour = [wanted, this.#fruitKw, this.#respirationKw, this.#besideKw, asked, takenKw];
    hour.forEach((kilowatts, index) => {
      this.#today[index] = (this.#today[index] ?? 0) + (kilowatts * STEP_HOURS) / 24;
    });
    if ((hours + STEP_HOURS) % 24 !== 0) return;
    const [wantedKw = 0, fruitKw = 0, respirationKw = 0, besideKw = 0, askedKw = 0, mean = 0] = this.#today;
    this.#days.push({ day, wantedKw, fruitKw, respirationKw, besideKw, askedKw, takenKw: mean });
    this.#today.fill(0);
    for (const { ends, celsius, loadedAtHours } of this.#batches) {
      if (loadedAtHours <= hours) ends.push({ day, celsius });
    }
  }
}

function firstTarget({ roomTemperature }: MarchRoom): number {
  return roomTemperature.knots[0]?.celsius ?? 0;
}

/** Between two hours the difference falls exponentially, so that the time is exact where the law alone decides. */
function noteSevenEighths(room: MarchRoom, batch: Batch, before: number, hours: number): void {
  if (batch.sevenEighthsAtHours !== undefined) return;
  const target = firstTarget(room);
  const eighth = (batch.fieldCelsius - target) / 8;
  const [from, to] = [before - target, batch.celsius - target];
  if (to > eighth + 1e-12) return;
  const share = from > eighth && to > 0 ? Math.log(from / eighth) / Math.log(from / to) : 0;
  batch.sevenEighthsAtHours = Math.max(batch.loadedAtHours, hours + share * STEP_HOURS);
}
