import { type Day, firstDayOfWeek } from '../plan/dates';
import { sourcesOf } from './sources';
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
  const waits = problem.products.map((_, product) => waitsOf(problem, days, schedule, product));
  const [longest] = waits.flatMap(({ longest: one }) => one ?? []).sort((a, b) => b.days - a.days);
  const tooLong = waits.flatMap(({ longest: one, cartons }) =>
    one && cartons >= 1 ? [{ ...one, cartons }] : [],
  );
  return { allowedDays, ...(longest && { longest }), tooLong };
}

function waitsOf(problem: ReleaseProblem, days: PackhouseDays, schedule: ReleaseSchedule, product: number) {
  const packed = packedByDay(problem, days, schedule, product);
  const leaves = leavesByDay(problem, days, schedule, product);
  const [first, end] = [firstDayOfWeek(problem.firstWeek), firstDayOfWeek(problem.firstWeek + problem.weeks)];
  const stock: { day: Day; cartons: number }[] = [];
  let longest: PackedWait | undefined;
  let [tooLong, toLeave] = [0, 0];
  for (let day = first; day < end; day++) {
    const more = packed.get(day) ?? 0;
    if (more > NOTHING) stock.push({ day, cartons: more });
    toLeave += leaves.get(day) ?? 0;
    for (let oldest = stock[0]; oldest && toLeave > NOTHING; oldest = stock[0]) {
      const taken = Math.min(oldest.cartons, toLeave);
      const waited = day - oldest.day;
      if (!longest || waited > longest.days)
        longest = { product, packedOn: oldest.day, leavesOn: day, days: waited };
      if (waited > days.packedWaitDays) tooLong += taken;
      oldest.cartons -= taken;
      toLeave -= taken;
      if (oldest.cartons <= NOTHING) stock.shift();
    }
  }
  return { longest, cartons: tooLong };
}

function packedByDay(
  problem: ReleaseProblem,
  days: PackhouseDays,
  { opens, packed }: ReleaseSchedule,
  product: number,
): Map<Day, number> {
  const into = new Map<Day, number>();
  const lastDays = days.daysToEmpty - 7 * (Math.ceil(days.daysToEmpty / 7) - 1);
  packed.forEach((row, index) => {
    const room = problem.rooms[index];
    row.forEach((bins, week) => {
      const cartons = bins * (room?.cartonsABin[week]?.[product] ?? 0);
      const isLast = room && !room.fromField && week === (opens[index] ?? 0) + room.weeksToEmpty - 1;
      if (cartons > 0) spread(problem, days, week, cartons, into, isLast ? lastDays : 7);
    });
  });
  return into;
}

/** Sold and processed, evenly over the week's working days. */
function leavesByDay(
  problem: ReleaseProblem,
  days: PackhouseDays,
  schedule: ReleaseSchedule,
  product: number,
): Map<Day, number> {
  const into = new Map<Day, number>();
  for (let week = 0; week < problem.weeks; week++) {
    let cartons = schedule.processed[product]?.[week] ?? 0;
    problem.demands.forEach((demand, index) => {
      sourcesOf(problem, demand).forEach((source, at) => {
        if (source.product !== product) return;
        cartons += demand.from
          ? (schedule.soldFrom?.[index]?.[at]?.[week] ?? 0)
          : (schedule.sold[index]?.[week] ?? 0);
      });
    });
    if (cartons > 0) spread(problem, days, week, cartons, into, 7);
  }
  return into;
}

/** Adds cartons to the working days of a week, on the first so many days from Monday; with none of them, to its Monday. */
function spread(
  { firstWeek }: ReleaseProblem,
  days: PackhouseDays,
  week: number,
  cartons: number,
  into: Map<Day, number>,
  firstDays: number,
): void {
  const monday = firstDayOfWeek(firstWeek + week);
  const open = Array.from({ length: 7 }, (_, since) => {
    const day = monday + since;
    const works = day >= days.starts && day <= days.ends && !days.closed.includes(day);
    return works ? Math.max(0, Math.min(1, days.daysAWeek - since, firstDays - since)) : 0;
  });
  const all = open.reduce((sum, one) => sum + one, 0);
  const shares = all > 0 ? open.map((one) => one / all) : [1, 0, 0, 0, 0, 0, 0];
  shares.forEach((share, since) => {
    if (share > 0) into.set(monday + since, (into.get(monday + since) ?? 0) + cartons * share);
  });
}
