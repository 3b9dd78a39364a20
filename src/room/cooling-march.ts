import type { Day } from '../plan/dates';
import { roomCelsius } from './course/fruit-temperature';
import { type RateInAir, rateAt } from './course/of-plan';
import type { RoomTemperature } from './course/types';
import { March, type Marched } from './marched';

/** Hours after the last bin past which fruit that is still warm is given up on. */
const MOST_HOURS = 24 * 60;
/** Fruit whose difference to the room is no more than this part of what it was has settled: six half-times. */
const SETTLED_PART = 64;
/** One hour is short against any half-time, and the step itself is exact. */
export const STEP_HOURS = 1;

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
  /** Of each variety its share of the mass, its respiration in air, and the heat of a milligram of carbon dioxide, J. */
  readonly respiration: readonly {
    readonly share: number;
    readonly inAir: RateInAir;
    readonly joules: number;
  }[];
  /** Heat through the fabric, of air changes, fans and what works in the room, while loading and until the fruit has settled. */
  readonly loadingKw: number;
  readonly coolingKw: number;
  readonly capacityKw: (day: Day) => number;
  /** What the room wants once its fruit has settled. */
  readonly coldKw: (day: Day) => number;
}

/** Where a room's fruit stands at the start of a day; by batch. */
export interface MarchState {
  readonly celsius: Float64Array;
  readonly sevenEighthsAtHours: Float64Array;
}

/** Heat of respiration of the room's fruit at a temperature, W/kg. */
function wattsAt(varieties: MarchRoom['respiration'], celsius: number): number {
  let watts = 0;
  for (let each = 0; each < varieties.length; each++) {
    const variety = varieties[each] as MarchRoom['respiration'][number];
    watts += (variety.share * rateAt(variety.inAir, celsius) * variety.joules) / 3600;
  }
  return watts;
}

/**
 * One room's fruit, hour by hour: what it asks for, then what it gets of it. This runs a thousand times for each room and
 * mostly before it is compiled, so that it keeps to arrays of numbers and calls little.
 */
export class RoomMarch {
  /** By batch: mass, heat for each kelvin (kJ), when and how warm it came in. */
  private readonly fruitKg: Float64Array;
  private readonly heat: Float64Array;
  private readonly loadedAt: Float64Array;
  private readonly field: Float64Array;
  /** By batch: how warm it is, when it was seven-eighths cool (not a number before), what it is to fall in the hour. */
  private readonly celsius: Float64Array;
  private readonly sevenEighths: Float64Array;
  private readonly drops: Float64Array;
  private readonly record: March;
  private readonly rate: number;
  private readonly inAnHour: number;
  private readonly waitHours: number;
  private readonly firstTarget: number;
  /** Whether the room is as cold all the time. */
  private readonly isSteady: boolean;
  private shortHours = 0;
  /** How many batches are in the room. */
  private here = 0;
  /** What the hour wants that was asked last: heat of the fruit, its respiration, the rest. */
  private fruitKw = 0;
  private respirationKw = 0;
  private besideKw = 0;
  private askedKw = 0;
  /** Sums of the day so far, as those of a `MarchedDay`. */
  private dayWanted = 0;
  private dayFruit = 0;
  private dayRespiration = 0;
  private dayBeside = 0;
  private dayAsked = 0;
  private dayTaken = 0;
  private askedYesterday = 0;

  /** Where only what is asked matters, its days need not be recorded. */
  constructor(
    private readonly room: MarchRoom,
    private readonly records = true,
  ) {
    const { loads, firstDay, fruitKgInBin, heatOfBin, halfTimeHours, lag, roomTemperature } = room;
    this.rate = Math.LN2 / halfTimeHours;
    this.inAnHour = 1 - Math.exp(-this.rate * STEP_HOURS);
    this.waitHours = Math.log(Math.max(lag, 1)) / this.rate;
    this.firstTarget = roomTemperature.knots[0]?.celsius ?? 0;
    this.isSteady = roomTemperature.knots.length === 1;
    const batches: { readonly day: Day; readonly bins: number }[] = [];
    const count = loads.length;
    this.fruitKg = new Float64Array(count);
    this.heat = new Float64Array(count);
    this.loadedAt = new Float64Array(count);
    this.field = new Float64Array(count);
    for (let index = 0; index < count; index++) {
      const { bins, celsius } = loads[index] as MarchRoom['loads'][number];
      if (!(bins > 0)) continue;
      const place = batches.length;
      batches.push({ day: firstDay + index, bins });
      this.fruitKg[place] = bins * fruitKgInBin;
      this.heat[place] = bins * heatOfBin;
      this.loadedAt[place] = 24 * index;
      this.field[place] = celsius;
    }
    this.record = new March(firstDay, batches);
    this.celsius = this.field.slice(0, batches.length);
    this.sevenEighths = new Float64Array(batches.length).fill(Number.NaN);
    this.drops = new Float64Array(batches.length);
  }

  /** At the end of a day: whether its fruit has settled, or is given up on. */
  over(hours: number): boolean {
    if (hours % 24 !== 0) return false;
    if (hours >= 24 * this.room.loads.length + MOST_HOURS) return true;
    const { celsius, sevenEighths, field, firstTarget: target } = this;
    for (let index = 0; index < celsius.length; index++) {
      if (Number.isNaN(sevenEighths[index])) return false;
      const difference = (celsius[index] as number) - target;
      if (!(difference <= ((field[index] as number) - target) / SETTLED_PART + 1e-12)) return false;
    }
    return true;
  }

  result(): Marched {
    return this.record.result(this.sevenEighths, this.shortHours);
  }

  /** Hours from the first bin's day until the last of its fruit was seven-eighths cool; endless where it was not. */
  allColdAtHours(): number {
    return this.sevenEighths.reduce(
      (last, hours) => Math.max(last, Number.isNaN(hours) ? Number.POSITIVE_INFINITY : hours),
      Number.NEGATIVE_INFINITY,
    );
  }

  /** What was asked for on the last day that is complete, mean kW. */
  askedYesterdayKw(): number {
    return this.askedYesterday;
  }

  /** Where its fruit stands, at the start of a day. */
  save(): MarchState {
    return { celsius: this.celsius.slice(), sevenEighthsAtHours: this.sevenEighths.slice() };
  }

  /** Goes on from where the same room's fruit stood at the start of a day. Its days so far are not told again. */
  restore({ celsius, sevenEighthsAtHours }: MarchState): void {
    this.celsius.set(celsius);
    this.sevenEighths.set(sevenEighthsAtHours);
  }

  /** What the room's cooler asks for in the hour, kW. */
  ask(hours: number): number {
    const { celsius, drops, heat, fruitKg, loadedAt, waitHours, inAnHour } = this;
    const { respiration: varieties, loads, roomTemperature, loadingKw, coolingKw } = this.room;
    const target = this.isSteady ? this.firstTarget : roomCelsius(roomTemperature, hours + STEP_HOURS / 2);
    let here = this.here;
    while (here < celsius.length && (loadedAt[here] as number) <= hours) here++;
    this.here = here;
    let fruit = 0;
    let respiration = 0;
    for (let index = 0; index < here; index++) {
      const warm = celsius[index] as number;
      const cooling = hours + STEP_HOURS - (loadedAt[index] as number) - waitHours;
      const way = cooling >= STEP_HOURS ? inAnHour : 1 - Math.exp(-this.rate * Math.max(0, cooling));
      const drop = (warm - target) * way;
      drops[index] = drop;
      fruit += ((heat[index] as number) * drop) / (STEP_HOURS * 3600);
      respiration += ((fruitKg[index] as number) * wattsAt(varieties, warm - drop / 2)) / 1000;
    }
    const beside = hours < 24 * loads.length ? loadingKw : coolingKw;
    this.besideKw = beside;
    this.respirationKw = respiration;
    // Fruit colder than the room takes up heat, but no more of it is ever wanted than there is.
    this.fruitKw = Math.max(fruit, -respiration - beside);
    const day = this.room.firstDay + Math.floor(hours / 24);
    const wanted = Math.max(0, this.fruitKw + respiration + beside);
    this.askedKw = Math.min(wanted, this.room.capacityKw(day));
    return this.askedKw;
  }

  /**
   * The hour that was asked for, with so much cooling. Each batch goes its way by the law; where all heat is more than
   * that, all of them go the same part of their way, and they warm where it does not even take what comes in beside
   * them.
   */
  take(hours: number, mostKw: number): void {
    const { celsius, drops, field, sevenEighths, here, fruitKw, respirationKw, besideKw } = this;
    const wanted = Math.max(0, fruitKw + respirationKw + besideKw);
    const beside = respirationKw + besideKw;
    const short = wanted > mostKw * (1 + 1e-9);
    const part = short ? Math.max(0, mostKw - beside) / fruitKw : 1;
    const warming = short && mostKw < beside && here > 0 ? this.warming(beside - mostKw) : 0;
    for (let index = 0; index < here; index++) {
      const before = celsius[index] as number;
      celsius[index] =
        warming > 0
          ? Math.min(Math.max(before, field[index] as number), before + warming)
          : before - part * (drops[index] as number);
      if (Number.isNaN(sevenEighths[index])) this.noteSevenEighths(index, before, hours);
    }
    if (short) this.shortHours += STEP_HOURS;
    this.dayWanted += (wanted * STEP_HOURS) / 24;
    this.dayFruit += (fruitKw * STEP_HOURS) / 24;
    this.dayRespiration += (respirationKw * STEP_HOURS) / 24;
    this.dayBeside += (besideKw * STEP_HOURS) / 24;
    this.dayAsked += (this.askedKw * STEP_HOURS) / 24;
    this.dayTaken += (Math.min(wanted, mostKw) * STEP_HOURS) / 24;
  }

  /** After the last hour of a day. */
  endDay(): void {
    if (this.records)
      this.record.endDay(
        [this.dayWanted, this.dayFruit, this.dayRespiration, this.dayBeside, this.dayAsked, this.dayTaken],
        this.celsius,
        this.here,
      );
    this.askedYesterday = this.dayAsked;
    this.beginDay();
  }

  private beginDay(): void {
    this.dayWanted = this.dayFruit = this.dayRespiration = this.dayBeside = this.dayAsked = this.dayTaken = 0;
  }

  /** Kelvins by which heat that nothing takes away warms all the fruit in an hour. */
  private warming(kilowatts: number): number {
    let heat = 0;
    for (let index = 0; index < this.here; index++) heat += this.heat[index] as number;
    return (kilowatts * STEP_HOURS * 3600) / heat;
  }

  /** Between two hours the difference falls exponentially, so that the time is exact where the law alone decides. */
  private noteSevenEighths(index: number, before: number, hours: number): void {
    const target = this.firstTarget;
    const eighth = ((this.field[index] as number) - target) / 8;
    const to = (this.celsius[index] as number) - target;
    if (to > eighth + 1e-12) return;
    const from = before - target;
    const share = from > eighth && to > 0 ? Math.log(from / eighth) / Math.log(from / to) : 0;
    this.sevenEighths[index] = Math.max(this.loadedAt[index] as number, hours + share * STEP_HOURS);
  }
}
