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

/** One day's fruit, with what never changes about it. */
interface Batch {
  readonly day: Day;
  readonly bins: number;
  readonly fruitKg: number;
  /** Heat for each kelvin, kJ. */
  readonly heat: number;
  readonly loadedAtHours: number;
  readonly fieldCelsius: number;
  readonly ends: { readonly day: Day; readonly celsius: number }[];
}

/** Where a room's fruit stands at the start of a day; by batch. */
export interface MarchState {
  readonly celsius: Float64Array;
  readonly sevenEighthsAtHours: Float64Array;
}

/** A room whose cooler is its own: hour by hour until its fruit has settled and the day is over. */
export function march(room: MarchRoom): Marched {
  const one = new RoomMarch(room);
  for (let hours = 0; !one.over(hours); hours += STEP_HOURS) one.take(hours, one.ask(hours));
  return one.result();
}

/** One room's fruit, hour by hour: what it asks for, then what it gets of it. */
export class RoomMarch {
  readonly #room: MarchRoom;
  readonly #batches: readonly Batch[];
  readonly #celsius: Float64Array;
  /** Not a number where a batch is warmer still. */
  readonly #sevenEighthsAtHours: Float64Array;
  readonly #days: MarchedDay[] = [];
  /** Sums of the day so far, in the order of a `MarchedDay`. */
  readonly #today = new Float64Array(6);
  readonly #rate: number;
  readonly #inAnHour: number;
  readonly #waitHours: number;
  readonly #firstTarget: number;
  #shortHours = 0;
  /** How many batches are in the room. */
  #here = 0;
  /** What the hour wants that was asked last: heat of the fruit, its respiration, the rest, and each batch's fall. */
  #fruitKw = 0;
  #respirationKw = 0;
  #besideKw = 0;
  #askedKw = 0;
  readonly #drops: Float64Array;
  #askedYesterdayKw = 0;

  /** Where only what is asked matters, its days need not be recorded. */
  constructor(
    room: MarchRoom,
    private readonly records = true,
  ) {
    this.#room = room;
    this.#rate = Math.LN2 / room.halfTimeHours;
    this.#inAnHour = 1 - Math.exp(-this.#rate * STEP_HOURS);
    this.#waitHours = Math.log(Math.max(room.lag, 1)) / this.#rate;
    this.#firstTarget = room.roomTemperature.knots[0]?.celsius ?? 0;
    this.#batches = room.loads.flatMap(({ bins, celsius }, index) =>
      bins > 0
        ? [
            {
              day: room.firstDay + index,
              bins,
              fruitKg: bins * room.fruitKgInBin,
              heat: bins * room.heatOfBin,
              loadedAtHours: 24 * index,
              fieldCelsius: celsius,
              ends: [],
            },
          ]
        : [],
    );
    this.#celsius = Float64Array.from(this.#batches, ({ fieldCelsius }) => fieldCelsius);
    this.#sevenEighthsAtHours = new Float64Array(this.#batches.length).fill(Number.NaN);
    this.#drops = new Float64Array(this.#batches.length);
  }

  /** At the end of a day: whether its fruit has settled, or is given up on. */
  over(hours: number): boolean {
    if (hours % 24 !== 0) return false;
    if (hours >= 24 * this.#room.loads.length + MOST_HOURS) return true;
    const target = this.#firstTarget;
    return this.#batches.every(({ fieldCelsius }, index) => {
      const difference = (this.#celsius[index] ?? 0) - target;
      return (
        !Number.isNaN(this.#sevenEighthsAtHours[index]) &&
        difference <= (fieldCelsius - target) / SETTLED_PART + 1e-12
      );
    });
  }

  result(): Marched {
    const batches = this.#batches.map(({ day, bins, loadedAtHours, ends }, index) => {
      const hours = this.#sevenEighthsAtHours[index] ?? Number.NaN;
      return { day, bins, loadedAtHours, sevenEighthsAtHours: Number.isNaN(hours) ? undefined : hours, ends };
    });
    return { batches, days: this.#days, shortHours: this.#shortHours };
  }

  /** Hours from the first bin's day until the last of its fruit was seven-eighths cool; endless where it was not. */
  allColdAtHours(): number {
    return this.#sevenEighthsAtHours.reduce(
      (last, hours) => Math.max(last, Number.isNaN(hours) ? Number.POSITIVE_INFINITY : hours),
      Number.NEGATIVE_INFINITY,
    );
  }

  /** What was asked for on the last day that is complete, mean kW. */
  askedYesterdayKw(): number {
    return this.#askedYesterdayKw;
  }

  /** Where its fruit stands, at the start of a day. */
  save(): MarchState {
    return { celsius: this.#celsius.slice(), sevenEighthsAtHours: this.#sevenEighthsAtHours.slice() };
  }

  /** Goes on from where the same room's fruit stood at the start of a day. Its days so far are not told again. */
  restore({ celsius, sevenEighthsAtHours }: MarchState): void {
    this.#celsius.set(celsius);
    this.#sevenEighthsAtHours.set(sevenEighthsAtHours);
  }

  /** What the room's cooler asks for in the hour, kW. */
  ask(hours: number): number {
    const { wattsPerKg, loads, roomTemperature: line } = this.#room;
    const batches = this.#batches;
    const target = roomCelsius(line, hours + STEP_HOURS / 2);
    while ((batches[this.#here]?.loadedAtHours ?? Number.POSITIVE_INFINITY) <= hours) this.#here++;
    let [fruit, respiration] = [0, 0];
    for (let index = 0; index < this.#here; index++) {
      const batch = batches[index] as Batch;
      const celsius = this.#celsius[index] as number;
      const cooling = hours + STEP_HOURS - batch.loadedAtHours - this.#waitHours;
      const way = cooling >= STEP_HOURS ? this.#inAnHour : 1 - Math.exp(-this.#rate * Math.max(0, cooling));
      const drop = (celsius - target) * way;
      this.#drops[index] = drop;
      fruit += (batch.heat * drop) / (STEP_HOURS * 3600);
      respiration += (batch.fruitKg * wattsPerKg(celsius - drop / 2)) / 1000;
    }
    const loading = hours < 24 * loads.length;
    this.#besideKw = loading ? this.#room.loadingKw : this.#room.coolingKw;
    this.#respirationKw = respiration;
    // Fruit colder than the room takes up heat, but no more of it is ever wanted than there is.
    this.#fruitKw = Math.max(fruit, -respiration - this.#besideKw);
    const day = this.#room.firstDay + Math.floor(hours / 24);
    this.#askedKw = Math.min(this.#wantedKw(), this.#room.capacityKw(day));
    return this.#askedKw;
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
    const warming = short && mostKw < beside && this.#here > 0 ? this.#warming(beside - mostKw) : 0;
    for (let index = 0; index < this.#here; index++) {
      const before = this.#celsius[index] as number;
      const { fieldCelsius } = this.#batches[index] as Batch;
      this.#celsius[index] =
        warming > 0
          ? Math.min(Math.max(before, fieldCelsius), before + warming)
          : before - part * (this.#drops[index] as number);
      if (Number.isNaN(this.#sevenEighthsAtHours[index])) this.#noteSevenEighths(index, before, hours);
    }
    this.#shortHours += short ? STEP_HOURS : 0;
    this.#note(hours, Math.min(wanted, mostKw));
  }

  #wantedKw(): number {
    return Math.max(0, this.#fruitKw + this.#respirationKw + this.#besideKw);
  }

  /** Kelvins by which heat that nothing takes away warms all the fruit in an hour. */
  #warming(kilowatts: number): number {
    let heat = 0;
    for (let index = 0; index < this.#here; index++) heat += (this.#batches[index] as Batch).heat;
    return (kilowatts * STEP_HOURS * 3600) / heat;
  }

  /** Adds the hour to its day, which is complete with its last one. */
  #note(hours: number, takenKw: number): void {
    this.#add(0, this.#wantedKw());
    this.#add(1, this.#fruitKw);
    this.#add(2, this.#respirationKw);
    this.#add(3, this.#besideKw);
    this.#add(4, this.#askedKw);
    this.#add(5, takenKw);
    if ((hours + STEP_HOURS) % 24 !== 0) return;
    const [wantedKw = 0, fruitKw = 0, respirationKw = 0, besideKw = 0, askedKw = 0, mean = 0] = this.#today;
    this.#askedYesterdayKw = askedKw;
    this.#today.fill(0);
    if (!this.records) return;
    const day = this.#room.firstDay + Math.floor(hours / 24);
    this.#days.push({ day, wantedKw, fruitKw, respirationKw, besideKw, askedKw, takenKw: mean });
    for (let index = 0; index < this.#here; index++)
      this.#batches[index]?.ends.push({ day, celsius: this.#celsius[index] ?? 0 });
  }

  #add(term: number, kilowatts: number): void {
    this.#today[term] = (this.#today[term] as number) + (kilowatts * STEP_HOURS) / 24;
  }

  /** Between two hours the difference falls exponentially, so that the time is exact where the law alone decides. */
  #noteSevenEighths(index: number, before: number, hours: number): void {
    const { fieldCelsius, loadedAtHours } = this.#batches[index] as Batch;
    const target = this.#firstTarget;
    const eighth = (fieldCelsius - target) / 8;
    const [from, to] = [before - target, (this.#celsius[index] as number) - target];
    if (to > eighth + 1e-12) return;
    const share = from > eighth && to > 0 ? Math.log(from / eighth) / Math.log(from / to) : 0;
    this.#sevenEighthsAtHours[index] = Math.max(loadedAtHours, hours + share * STEP_HOURS);
  }
}
