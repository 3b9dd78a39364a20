import { formatWeek } from '../plan/dates';
import type {
  EvenWork,
  FromField,
  ProblemDemand,
  ProblemRoom,
  ReleaseProblem,
  ReleaseSchedule,
  Violation,
} from './types';

/** What amounts may differ by, as a share of what they are compared with. */
const TOLERANCE = 1e-6;

/** The kinds of violation that `checkSchedule` finds. */
export const violationKinds = [
  'shape',
  'not-a-number',
  'negative',
  'week',
  'window',
  'pin',
  'unmet',
  'packed-outside',
  'packed-bins',
  'packing-capacity',
  'packed-late',
  'not-there',
  'rooms-open',
  'order',
  'oversold',
  'sold-from',
  'not-accepted',
  'balance',
  'waited-too-long',
  'left-over',
  'value',
] as const;

type Kind = (typeof violationKinds)[number];

/**
 * Everything that is wrong with a schedule, found from the problem and the schedule alone. Shares nothing with the
 * search or the model, so that a mistake there shows here. `unmet` are rooms that conflicts name: they stay closed.
 */
export function checkSchedule(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  unmet: readonly number[] = [],
): Violation[] {
  const check = new Check(problem, schedule, unmet);
  // Sums of misshapen or missing numbers say nothing, so the rest waits until these are right.
  if (check.shape()) return check.found;
  check.numbers();
  if (check.found.some((one) => one.kind === 'not-a-number')) return check.found;
  check.openings();
  check.packing();
  check.sales();
  check.products();
  check.value();
  return check.found;
}

class Check {
  readonly found: Violation[] = [];

  constructor(
    private readonly problem: ReleaseProblem,
    private readonly schedule: ReleaseSchedule,
    private readonly unmet: readonly number[],
  ) {}

  /** True where lists have the wrong length. */
  shape(): boolean {
    const { rooms, demands, products, weeks } = this.problem;
    const { opens, packed, sold, processed } = this.schedule;
    if (opens.length !== rooms.length)
      this.add('shape', `opens lists ${opens.length} rooms, not ${rooms.length}`);
    for (const [name, rows, wanted] of [
      ['packed', packed, rooms.length],
      ['sold', sold, demands.length],
      ['processed', processed, products.length],
    ] as const) {
      if (rows.length !== wanted || rows.some((row) => row.length !== weeks))
        this.add('shape', `${name} is not ${wanted} rows of ${weeks} weeks`);
    }
    demands.forEach(({ id, from }, index) => {
      const parts = this.schedule.soldFrom?.[index] ?? [];
      if (from && (parts.length !== from.length || parts.some((row) => row.length !== weeks)))
        this.add('shape', `what ${id} takes is not ${from.length} rows of ${weeks} weeks`);
    });
    return this.found.length > 0;
  }

  numbers(): void {
    const { packed, sold, processed, value } = this.schedule;
    for (const [name, rows] of [
      ['packed', packed],
      ['sold', sold],
      ['processed', processed],
      ...(this.schedule.soldFrom ?? []).map((parts) => ['sold from', parts] as const),
    ] as const) {
      rows.forEach((row, index) => {
        row.forEach((amount, week) => {
          if (!Number.isFinite(amount))
            this.add('not-a-number', `${name} ${index} in ${this.week(week)} is ${amount}`);
          else if (amount < -TOLERANCE)
            this.add('negative', `${name} ${index} in ${this.week(week)} is ${amount}`);
        });
      });
    }
    if (!Number.isFinite(value)) this.add('not-a-number', `the value is ${value}`);
  }

  openings(): void {
    const open = new Array<number>(this.problem.weeks).fill(0);
    this.problem.rooms.forEach((room, index) => {
      const week = this.schedule.opens[index] ?? null;
      const name = `room ${room.room} (${room.fill})`;
      if (this.unmet.includes(index)) {
        if (week !== null)
          this.add('unmet', `${name} is named by a conflict, yet opens in ${this.week(week)}`);
      } else if (room.pinned !== null && week !== room.pinned) {
        const instead = week === null ? 'stays closed' : `opens in ${this.week(week)}`;
        this.add('pin', `${name} is pinned to ${this.week(room.pinned)}, but ${instead}`);
      }
      if (week === null) return;
      if (!Number.isInteger(week) || week < 0 || week >= this.problem.weeks) {
        this.add('week', `${name} opens in week ${week}, which is no week of the season`);
        return;
      }
      if (week < room.earliest || week > room.latest)
        this.add('window', `${name} opens in ${this.week(week)}, outside its window`);
      if (room.fromField) return;
      for (let at = week; at < week + room.weeksToEmpty && at < open.length; at++)
        open[at] = (open[at] ?? 0) + 1;
    });
    const limit = this.problem.roomsOpenAtOnce;
    open.forEach((rooms, week) => {
      if (limit !== null && rooms > limit)
        this.add('rooms-open', `${rooms} rooms stand open in ${this.week(week)}, and only ${limit} may`);
    });
    this.order();
  }

  private order(): void {
    const { rooms, opensBefore } = this.problem;
    for (const [first, later] of opensBefore ?? []) {
      const [before, after] = [this.schedule.opens[first] ?? null, this.schedule.opens[later] ?? null];
      if (before === null || after === null || before < after) continue;
      const [one, other] = [rooms[first]?.room, rooms[later]?.room];
      this.add(
        'order',
        `room ${one} must open before room ${other}, but opens in ${this.week(before)} and ${other} in ${this.week(after)}`,
      );
    }
  }

  packing(): void {
    const { rooms, packingBins } = this.problem;
    const aWeek = packingBins.map(() => 0);
    const onLastDays = packingBins.map(() => 0);
    this.schedule.packed.forEach((row, index) => {
      const room = rooms[index];
      if (!room) return;
      const opens = this.schedule.opens[index] ?? null;
      let all = 0;
      row.forEach((bins, week) => {
        all += bins;
        aWeek[week] = (aWeek[week] ?? 0) + bins;
        if (opens !== null && !room.fromField && week - opens === room.weeksToEmpty - 1)
          onLastDays[week] = (onLastDays[week] ?? 0) + bins;
        const allowed = opens !== null && week >= opens && week < opens + room.weeksToEmpty;
        if (!allowed && bins > TOLERANCE)
          this.add('packed-outside', `${bins} bins of room ${room.room} are packed in ${this.week(week)}`);
        if (allowed && room.fromField) this.fromField(room, room.fromField, week, bins);
      });
      const wanted = opens === null ? 0 : room.bins;
      if (opens !== null && room.fromField) {
        if (all > wanted + TOLERANCE * Math.max(1, wanted))
          this.add('packed-bins', `${all} bins of ${room.room} are packed, and there are ${wanted}`);
      } else if (Math.abs(all - wanted) > TOLERANCE * Math.max(1, room.bins))
        this.add('packed-bins', `${all} bins of room ${room.room} (${room.fill}) are packed, not ${wanted}`);
    });
    aWeek.forEach((bins, week) => {
      const most = packingBins[week] ?? 0;
      if (bins > most + TOLERANCE * Math.max(1, most))
        this.add(
          'packing-capacity',
          `${bins} bins are packed in ${this.week(week)}, and the packhouse runs ${most}`,
        );
      const late = onLastDays[week] ?? 0;
      const until = this.problem.lastWeekBins?.[week] ?? most;
      if (late > until + TOLERANCE * Math.max(1, most))
        this.add(
          'packed-late',
          `${late} bins of rooms that must be empty within ${this.week(week)} are packed in it, and the packhouse runs ${until} by then`,
        );
    });
  }

  /** Fruit from the field is packed only on the days on which it is there. */
  private fromField({ earliest, room }: ProblemRoom, field: FromField, week: number, bins: number): void {
    const most = field.mostBins[week - earliest] ?? 0;
    if (bins > most + TOLERANCE * Math.max(1, most))
      this.add(
        'not-there',
        `${bins} bins of ${room} are packed in ${this.week(week)}, and ${most} can be while they are there`,
      );
  }

  sales(): void {
    this.problem.demands.forEach((demand, index) => {
      this.schedule.sold[index]?.forEach((sold, week) => {
        const wanted = demand.cartons[week] ?? 0;
        if (sold > wanted + TOLERANCE * Math.max(1, wanted))
          this.add(
            'oversold',
            `${demand.id} takes ${wanted} cartons in ${this.week(week)}, and ${sold} are sold`,
          );
        if (demand.from) this.sources(demand, index, week, sold);
      });
    });
  }

  /** Where a demand names what it may be filled from, each part is from there, and together they are what is sold. */
  private sources(demand: ProblemDemand, index: number, week: number, sold: number): void {
    let all = 0;
    demand.from?.forEach(({ product, until }, source) => {
      const cartons = this.schedule.soldFrom?.[index]?.[source]?.[week] ?? 0;
      all += cartons;
      if (week > until && cartons > TOLERANCE)
        this.add(
          'not-accepted',
          `${demand.id} takes ${cartons} cartons of ${this.problem.products[product]?.variety} in ${this.week(week)} that it does not accept`,
        );
    });
    if (Math.abs(all - sold) > TOLERANCE * Math.max(1, sold))
      this.add(
        'sold-from',
        `${demand.id} takes ${sold} cartons in ${this.week(week)}, and ${all} are found for it`,
      );
  }

  /** Cartons leave no earlier than they are packed, and no later than they may wait; the oldest leave first. */
  products(): void {
    const { weeks, packedWaitWeeks, days } = this.problem;
    // Whole weeks alone keep each carton within its days.
    const wait = Math.min(packedWaitWeeks, days ? Math.floor(days.packedWaitDays / 7) : packedWaitWeeks);
    this.problem.products.forEach(({ variety, packClass }, product) => {
      const packed = runningSum(
        Array.from({ length: weeks }, (_, week) => this.cartonsPacked(product, week)),
      );
      const gone = runningSum(Array.from({ length: weeks }, (_, week) => this.cartonsGone(product, week)));
      const slack = TOLERANCE * Math.max(1, packed.at(-1) ?? 0);
      const name = `${variety} ${packClass}`;
      for (let week = 0; week < weeks; week++) {
        const [soFar, left] = [packed[week] ?? 0, gone[week] ?? 0];
        if (left > soFar + slack)
          this.add(
            'balance',
            `${left} cartons of ${name} have left by ${this.week(week)}, and ${soFar} are packed`,
          );
        const mustBeGone = week - wait >= 0 ? (packed[week - wait] ?? 0) : 0;
        if (left < mustBeGone - slack && week < weeks - 1)
          this.add(
            'waited-too-long',
            `${mustBeGone - left} cartons of ${name} wait too long in ${this.week(week)}`,
          );
      }
      const over = (packed.at(-1) ?? 0) - (gone.at(-1) ?? 0);
      if (over > slack) this.add('left-over', `${over} cartons of ${name} are neither sold nor processed`);
    });
  }

  value(): void {
    const { demands, products, rooms, weeks } = this.problem;
    let [value, turnover] = [0, 1];
    const money = (amount: number) => {
      value += amount;
      turnover += Math.abs(amount);
    };
    for (let week = 0; week < weeks; week++) {
      demands.forEach((demand, index) => {
        const sold = this.schedule.sold[index]?.[week] ?? 0;
        money(demand.price * sold);
        money(-demand.priceOfShortage * ((demand.cartons[week] ?? 0) - sold));
      });
      products.forEach((_, product) => {
        money(this.problem.processingPrice * (this.schedule.processed[product]?.[week] ?? 0));
        // Every carton that has not left by the end of a week has waited through it.
        money(
          -this.problem.costOfWaiting *
            (this.cartonsPacked(product, week) - this.cartonsGone(product, week)) *
            (weeks - week),
        );
      });
    }
    rooms.forEach((room, index) => {
      if (room.fromField) money(this.unpacked(room, this.schedule.packed[index] ?? []));
      const week = this.schedule.opens[index] ?? null;
      if (week !== null) money(-(room.riskCost[week] ?? 0));
      if (!room.published) return;
      // A closed room counts as moved to the farther end of its window.
      const ends = week === null ? [room.earliest, room.latest] : [week];
      const moved = Math.max(...ends.map((end) => Math.abs(end - (room.published?.week ?? 0))));
      money(-room.published.price * (week === null && moved < 1 ? 1 : moved));
    });
    if (this.problem.evenWork) money(-this.problem.evenWork.price * this.unevenBins(this.problem.evenWork));
    if (Math.abs(value - this.schedule.value) > TOLERANCE * turnover)
      this.add('value', `the schedule is worth ${value}, not ${this.schedule.value}`);
  }

  /** What fruit from the field brings in processing that is never packed, for the cartons of its first week. */
  private unpacked({ bins, earliest, cartonsABin }: ProblemRoom, packed: readonly number[]) {
    const left = packed.reduce((rest, one) => rest - one, bins);
    return (
      this.problem.processingPrice * left * (cartonsABin[earliest] ?? []).reduce((sum, one) => sum + one, 0)
    );
  }

  /** Bins, at the pace of a full week, by which each working week differs from the one before. */
  private unevenBins({ fullWeeks }: EvenWork): number {
    let uneven = 0;
    let before: number | undefined;
    fullWeeks.forEach((full, week) => {
      if (full <= 0) return;
      const pace = this.schedule.packed.reduce((sum, row) => sum + (row[week] ?? 0), 0) / full;
      if (before !== undefined) uneven += Math.abs(pace - before);
      before = pace;
    });
    return uneven;
  }

  private cartonsPacked(product: number, week: number): number {
    return this.problem.rooms.reduce((sum, room, index) => {
      const bins = this.schedule.packed[index]?.[week] ?? 0;
      return sum + bins * (room.cartonsABin[week]?.[product] ?? 0);
    }, 0);
  }

  private cartonsGone(product: number, week: number): number {
    return this.problem.demands.reduce((sum, demand, index) => {
      if (!demand.from)
        return demand.product === product ? sum + (this.schedule.sold[index]?.[week] ?? 0) : sum;
      const source = demand.from.findIndex((one) => one.product === product);
      return sum + (source < 0 ? 0 : (this.schedule.soldFrom?.[index]?.[source]?.[week] ?? 0));
    }, this.schedule.processed[product]?.[week] ?? 0);
  }

  private week(index: number): string {
    return formatWeek(this.problem.firstWeek + index);
  }

  private add(kind: Kind, message: string): void {
    this.found.push({ kind, message });
  }
}

function runningSum(amounts: readonly number[]): number[] {
  let sum = 0;
  return amounts.map((amount) => {
    sum += amount;
    return sum;
  });
}
