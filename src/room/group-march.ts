import type { Day } from '../plan/dates';
import { type MarchRoom, type MarchState, RoomMarch, STEP_HOURS } from './cooling-march';
import type { Marched } from './marched';

/** Where the rooms of a group stand at the start of a day. */
export interface GroupState {
  readonly day: Day;
  /** By room, in their order. */
  readonly rooms: readonly MarchState[];
  /** Which of them are still being filled or cooled, and which have been, in the order in which they came cold. */
  readonly filling: readonly number[];
  readonly cold: readonly number[];
}

/**
 * Rooms that draw on one plant, hour by hour together: each within its own cooler, and where all of them together want
 * more than the plant has, each gets the same part of what it wants. A cold room goes on wanting what holds it.
 */
export function marchTogether(rooms: readonly MarchRoom[], plantKw: number): readonly Marched[] {
  const group = new GroupMarch(rooms, plantKw, { records: true });
  while (!group.over()) group.nextDay();
  return group.results();
}

/** A room whose cooler is its own: it has all that it asks for, until its fruit has settled and the day is over. */
export function march(room: MarchRoom): Marched {
  const [alone] = marchTogether([room], Number.POSITIVE_INFINITY);
  return alone as Marched;
}

/** The same day by day, for those who need not go on to the end. */
export class GroupMarch {
  /** By room: what it asked for on the day gone last, mean kW; not a number where it was not filled or cooled. */
  readonly askedKw: Float64Array;
  readonly #rooms: readonly MarchRoom[];
  readonly #all: readonly RoomMarch[];
  readonly #plantKw: number;
  #day: Day;
  #filling: number[];
  #cold: number[] = [];
  #worstHourKw = 0;

  constructor(rooms: readonly MarchRoom[], plantKw: number, { records }: { readonly records: boolean }) {
    this.#rooms = rooms;
    this.#plantKw = plantKw;
    this.#all = rooms.map((room) => new RoomMarch(room, records));
    this.#day = Math.min(...rooms.map(({ firstDay }) => firstDay));
    this.#filling = rooms.map((_, index) => index);
    this.askedKw = new Float64Array(rooms.length).fill(Number.NaN);
  }

  /** The day that comes next. */
  get day(): Day {
    return this.#day;
  }

  /** What all of them, the cold ones too, asked for in the worst hour of the day gone last, kW. */
  get worstHourKw(): number {
    return this.#worstHourKw;
  }

  /** Whether the fruit of all of them has settled. */
  over(): boolean {
    return this.#filling.length === 0;
  }

  save(): GroupState {
    const rooms = this.#all.map((one) => one.save());
    return { day: this.#day, rooms, filling: [...this.#filling], cold: [...this.#cold] };
  }

  /** Goes on from where these rooms stood; those of `anew` have not begun by then and may be other ones. */
  restore({ day, rooms, filling, cold }: GroupState, anew: ReadonlySet<number>): void {
    this.#day = day;
    this.#filling = [...filling];
    this.#cold = [...cold];
    rooms.forEach((state, index) => {
      if (!anew.has(index)) this.#all[index]?.restore(state);
    });
  }

  nextDay(): void {
    const day = this.#day++;
    this.askedKw.fill(Number.NaN);
    this.#worstHourKw = 0;
    const here = this.#fillingOn(day);
    if (this.over()) return;
    let coldKw = 0;
    for (const index of this.#cold) coldKw += this.#rooms[index]?.coldKw(day) ?? 0;
    this.#takeDay(here, day, coldKw);
    for (const index of here) this.askedKw[index] = this.#all[index]?.askedYesterdayKw() ?? Number.NaN;
  }

  results(): Marched[] {
    return this.#all.map((one) => one.result());
  }

  /** By room, hours from its first bin's day until the last of its fruit was seven-eighths cool. */
  allColdAtHours(): number[] {
    return this.#all.map((one) => one.allColdAtHours());
  }

  /** Those that have begun and are not cold yet; those that have come cold are put with the others. */
  #fillingOn(day: Day): number[] {
    const [here, filling]: [number[], number[]] = [[], []];
    for (const index of this.#filling) {
      const began = day - (this.#rooms[index]?.firstDay ?? day);
      if (began >= 0 && this.#all[index]?.over(24 * began)) {
        this.#cold.push(index);
        continue;
      }
      filling.push(index);
      if (began >= 0) here.push(index);
    }
    this.#filling = filling;
    return here;
  }

  #takeDay(here: readonly number[], day: Day, coldKw: number): void {
    const rooms: RoomMarch[] = [];
    const since: number[] = [];
    for (const index of here) {
      const one = this.#all[index];
      if (!one) continue;
      rooms.push(one);
      since.push(24 * (day - (this.#rooms[index]?.firstDay ?? day)));
    }
    this.#takeHours(rooms, since, coldKw);
    for (const one of rooms) one.endDay();
  }

  /** Hour by hour: where the rooms want more in one than the plant has, each gets the same part of what it wants. */
  #takeHours(rooms: readonly RoomMarch[], since: readonly number[], coldKw: number): void {
    this.#worstHourKw = 0;
    const asked = new Float64Array(rooms.length);
    for (let hour = 0; hour < 24; hour += STEP_HOURS) {
      let total = coldKw;
      for (let place = 0; place < rooms.length; place++) {
        const kilowatts = (rooms[place] as RoomMarch).ask((since[place] as number) + hour);
        asked[place] = kilowatts;
        total += kilowatts;
      }
      this.#worstHourKw = Math.max(this.#worstHourKw, total);
      const part = total > this.#plantKw ? this.#plantKw / total : 1;
      for (let place = 0; place < rooms.length; place++)
        (rooms[place] as RoomMarch).take((since[place] as number) + hour, (asked[place] as number) * part);
    }
  }
}
