import type { Day } from '../plan/dates';

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

/** One day's fruit on its way. */
export interface MarchedBatch {
  readonly day: Day;
  readonly bins: number;
  readonly loadedAtHours: number;
  /** When it has lost seven eighths of its difference to the room's first temperature. */
  readonly sevenEighthsAtHours: number | undefined;
  readonly ends: readonly { readonly day: Day; readonly celsius: number }[];
}

/** Numbers of a day and of a batch, as they stand in a row. */
const A_DAY = 6;
const A_BATCH = 3;
const ASKED = 4;

/**
 * The days of a room's march, which follow one another. They are held as numbers in a row: a season has thousands, and most
 * of them nobody ever asks for more than what they ask.
 */
export class MarchedDays {
  readonly #first: Day;
  readonly #numbers: Float64Array;

  constructor(first: Day, numbers: readonly number[]) {
    this.#first = first;
    this.#numbers = new Float64Array(numbers);
  }

  /** Undefined where there is none. */
  get first(): Day | undefined {
    return this.#numbers.length > 0 ? this.#first : undefined;
  }

  get last(): Day | undefined {
    const days = this.#numbers.length / A_DAY;
    return days > 0 ? this.#first + days - 1 : undefined;
  }

  /** What the room's cooler asks of the plant on a day; undefined on a day that is not among them. */
  askedKw(day: Day): number | undefined {
    return day < this.#first ? undefined : this.#numbers[A_DAY * (day - this.#first) + ASKED];
  }

  on(day: Day): MarchedDay | undefined {
    if (this.askedKw(day) === undefined) return undefined;
    const at = A_DAY * (day - this.#first);
    const [wantedKw = 0, fruitKw = 0, respirationKw = 0, besideKw = 0, askedKw = 0, takenKw = 0] =
      this.#numbers.subarray(at, at + A_DAY);
    return { day, wantedKw, fruitKw, respirationKw, besideKw, askedKw, takenKw };
  }

  all(): MarchedDay[] {
    const days: MarchedDay[] = [];
    for (let day = this.#first; ; day++) {
      const one = this.on(day);
      if (!one) return days;
      days.push(one);
    }
  }
}

/** No day at all. */
export const NOT_MARCHED = new MarchedDays(0, []);

/** What is written down of a march while it goes on, and all that is told of it in the end. */
export class March {
  readonly #firstDay: Day;
  /** By batch its day, its bins, and when it was seven-eighths cool; not a number before. */
  readonly #batches: Float64Array;
  readonly #days: number[] = [];
  /** By day how warm each batch is at its end that is in the room by then. */
  readonly #ends: number[] = [];

  /** By batch, in the order in which they came in: its day and its bins. */
  constructor(firstDay: Day, batches: readonly { readonly day: Day; readonly bins: number }[]) {
    this.#firstDay = firstDay;
    this.#batches = new Float64Array(A_BATCH * batches.length);
    for (const [index, { day, bins }] of batches.entries())
      this.#batches.set([day, bins, Number.NaN], A_BATCH * index);
  }

  /** The day's numbers in the order of a `MarchedDay`, and how warm the batches are that are in the room. */
  endDay(numbers: readonly number[], celsius: Float64Array, here: number): void {
    this.#days.push(...numbers);
    for (let index = 0; index < here; index++) this.#ends.push(celsius[index] ?? 0);
  }

  result(sevenEighths: Float64Array, shortHours: number): Marched {
    const batches = this.#batches.slice();
    for (let index = 0; index < sevenEighths.length; index++)
      batches[A_BATCH * index + A_BATCH - 1] = sevenEighths[index] ?? Number.NaN;
    const days = new MarchedDays(this.#firstDay, this.#days);
    return new Marched(this.#firstDay, batches, days, this.#ends, shortHours);
  }
}

/** A room's march: its days, and its fruit by the day on which it came in. */
export class Marched {
  readonly days: MarchedDays;
  readonly shortHours: number;
  readonly #firstDay: Day;
  readonly #batches: Float64Array;
  readonly #ends: Float64Array;

  constructor(
    firstDay: Day,
    batches: Float64Array,
    days: MarchedDays,
    ends: readonly number[],
    shortHours: number,
  ) {
    this.#firstDay = firstDay;
    this.#batches = batches;
    this.days = days;
    this.#ends = new Float64Array(ends);
    this.shortHours = shortHours;
  }

  get firstDay(): Day {
    return this.#firstDay;
  }

  /** Hours from the first bin's day until the last of its fruit was seven-eighths cool; endless where it was not. */
  allColdAtHours(): number {
    let last = Number.NEGATIVE_INFINITY;
    for (let at = A_BATCH - 1; at < this.#batches.length; at += A_BATCH) {
      const hours = this.#batches[at] ?? Number.NaN;
      last = Math.max(last, Number.isNaN(hours) ? Number.POSITIVE_INFINITY : hours);
    }
    return last;
  }

  /** Made when somebody asks. */
  batches(): MarchedBatch[] {
    const batches: MarchedBatch[] = [];
    for (let at = 0; at < this.#batches.length; at += A_BATCH) {
      const [day = 0, bins = 0, hours = Number.NaN] = this.#batches.subarray(at, at + A_BATCH);
      const sevenEighthsAtHours = Number.isNaN(hours) ? undefined : hours;
      const loadedAtHours = 24 * (day - this.#firstDay);
      batches.push({ day, bins, loadedAtHours, sevenEighthsAtHours, ends: this.#endsOf(at / A_BATCH) });
    }
    return batches;
  }

  #endsOf(batch: number): MarchedBatch['ends'] {
    const ends: { day: Day; celsius: number }[] = [];
    let here = 0;
    for (let at = 0, day = this.#firstDay; at < this.#ends.length; at += here, day++) {
      while ((this.#batches[A_BATCH * here] ?? Number.POSITIVE_INFINITY) <= day) here++;
      if (here === 0) continue;
      if (batch < here) ends.push({ day, celsius: this.#ends[at + batch] ?? 0 });
    }
    return ends;
  }
}
