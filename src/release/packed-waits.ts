import { type Day, firstDayOfWeek } from '../plan/dates';
import type { PackhouseDays, ReleaseProblem, ReleaseSchedule } from './types';

/** How long packed cartons wait in the cold store, to the day. */
export interface PackedWaits {
  readonly allowedDays: number;
  /** The carton that waits longest; absent where none is packed. */
  readonly longest?: PackedWait;
  /** By product, that which waits too long; in the order of the products. */
  readonly tooLong: readonly (PackedWait & { readonly cartons: number })[];
}

export interface PackedWait {
  readonly product: number;
  readonly packedOn: Day;
  readonly leavesOn: Day;
  readonly days: number;
}

/** Cartons below which nothing is told: rounding. */
const NOTHING = 1e-6;

/**
 * Lays a schedule's weeks out over their days: what is packed in a week evenly over the working days on which its room
 * may be packed, what leaves evenly over the week's working days, the oldest first. Where every week works the same days,
 * whole weeks of waiting are whole weeks for each carton; a closed day lets some wait longer. Undefined where the problem
 * knows no days.
 */
export function packedWaits(problem: ReleaseProblem, schedule: ReleaseSchedule): PackedWaits | undefined {
  const { days } = problem;
  if (!days) return undefined;
  const allowedDays = days.packedWaitDays;
  const packed = packedByDay(problem, days, schedule);
  const leaves = leavesByDay(problem, days, schedule);
  const waits = problem.products.map((_, product) =>
    waitsOf(problem, allowedDays, product, packed[product] ?? NO_DAYS, leaves[product] ?? NO_DAYS),
  );
  const [longest] = waits.flatMap(({ longest: one }) => one ?? []).sort((a, b) => b.days - a.days);
  const tooLong = waits.flatMap(({ longest: one, cartons }) =>
    one && cartons >= 1 ? [{ ...one, cartons }] : [],
  );
  return { allowedDays, ...(longest && { longest }), tooLong };
}

const NO_DAYS = new Float64Array(0);

/** Cartons by day, counted from the Monday of the first week. */
function waitsOf(
  { firstWeek }: ReleaseProblem,
  allowedDays: number,
  product: number,
  packed: Float64Array,
  leaves: Float64Array,
) {
  const first = firstDayOfWeek(firstWeek);
  const left = packed.slice();
  let longest: PackedWait | undefined;
  let [tooLong, toLeave, oldest] = [0, 0, 0];
  for (let day = 0; day < leaves.length; day++) {
    toLeave += leaves[day] ?? 0;
    while (toLeave > NOTHING && oldest <= day) {
      const taken = Math.min(left[oldest] ?? 0, toLeave);
      const waited = day - oldest;
      if (taken > NOTHING && (!longest || waited > longest.days))
        longest = { product, packedOn: first + oldest, leavesOn: first + day, days: waited };
      if (waited > allowedDays) tooLong += taken;
      left[oldest] = (left[oldest] ?? 0) - taken;
      toLeave -= taken;
      if ((left[oldest] ?? 0) > NOTHING) break;
      oldest += 1;
    }
    // What was packed later today may still leave with what is owed.
    if (oldest > day) oldest = day;
  }
  return { longest, cartons: tooLong };
}

function packedByDay(
  problem: ReleaseProblem,
  days: PackhouseDays,
  { opens, packed }: ReleaseSchedule,
): readonly Float64Array[] {
  const into = problem.products.map(() => new Float64Array(7 * problem.weeks));
  const whole = sharesOfDays(problem, days, 7);
  const lastDays = sharesOfDays(problem, days, days.daysToEmpty - 7 * (Math.ceil(days.daysToEmpty / 7) - 1));
  packed.forEach((row, index) => {
    const room = problem.rooms[index];
    row.forEach((bins, week) => {
      if (bins <= 0) return;
      const isLast = room && !room.fromField && week === (opens[index] ?? 0) + room.weeksToEmpty - 1;
      const shares = (isLast ? lastDays : whole)[week];
      room?.cartonsABin[week]?.forEach((aBin, product) => {
        add(into[product], week, bins * aBin, shares);
      });
    });
  });
  return into;
}

/** Sold and processed, evenly over the week's working days. */
function leavesByDay(
  problem: ReleaseProblem,
  days: PackhouseDays,
  schedule: ReleaseSchedule,
): readonly Float64Array[] {
  const into = problem.products.map(() => new Float64Array(7 * problem.weeks));
  const whole = sharesOfDays(problem, days, 7);
  const addRow = (product: number, row: readonly number[] | undefined) =>
    row?.forEach((cartons, week) => {
      add(into[product], week, cartons, whole[week]);
    });
  schedule.processed.forEach((row, product) => {
    addRow(product, row);
  });
  problem.demands.forEach((demand, index) => {
    if (!demand.from) addRow(demand.product, schedule.sold[index]);
    demand.from?.forEach(({ product }, at) => {
      addRow(product, schedule.soldFrom?.[index]?.[at]);
    });
  });
  return into;
}

function add(
  into: Float64Array | undefined,
  week: number,
  cartons: number,
  shares: readonly number[] | undefined,
): void {
  if (cartons <= 0 || !into) return;
  for (let since = 0; since < 7; since++)
    into[7 * week + since] = (into[7 * week + since] ?? 0) + cartons * (shares?.[since] ?? 0);
}

/**
 * Of each week's work the share that falls on each day from Monday, on the first so many days; all on the Monday of a
 * week without any.
 */
function sharesOfDays(
  { firstWeek, weeks }: ReleaseProblem,
  days: PackhouseDays,
  firstDays: number,
): readonly (readonly number[])[] {
  const closed = new Set(days.closed);
  return Array.from({ length: weeks }, (_, week) => {
    const monday = firstDayOfWeek(firstWeek + week);
    const open = Array.from({ length: 7 }, (__, since) => {
      const day = monday + since;
      const works = day >= days.starts && day <= days.ends && !closed.has(day);
      return works ? Math.max(0, Math.min(1, days.daysAWeek - since, firstDays - since)) : 0;
    });
    const all = open.reduce((sum, one) => sum + one, 0);
    return all > 0 ? open.map((one) => one / all) : [1, 0, 0, 0, 0, 0, 0];
  });
}
