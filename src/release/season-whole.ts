import type { Week } from '../plan/dates';
import type { Plan } from '../plan/model';
import type { ProblemDemand, ReleaseProblem, ReleaseSchedule } from './types';

/** A schedule with what was packed and sold before it, as recorded. */
export interface WholeSeason {
  readonly demands: readonly ProblemDemand[];
  /** Cartons by demand and week. */
  readonly sold: readonly (readonly number[])[];
  /** Bins by week. */
  readonly packed: readonly number[];
  /** Cartons that go to processing, by product and week. */
  readonly processed: readonly (readonly number[])[];
  /** Money: the schedule's value, and what was sold less what was short before it at the prices of the demands. */
  readonly value: number;
}

/**
 * The whole season of a schedule that goes on from where the season stands; of any other its own figures. What was wanted
 * in weeks of which it is not known what was delivered (`unknownUntil`) is neither short nor sold: it is not counted.
 */
export function wholeSeasonOf(problem: ReleaseProblem, schedule: ReleaseSchedule, plan: Plan): WholeSeason {
  const { standing, demands, weeks } = problem;
  const planned = Array.from({ length: weeks }, (_, week) =>
    schedule.packed.reduce((sum, row) => sum + (row[week] ?? 0), 0),
  );
  const packed = standing?.isPacked ? sums(planned, standing.packed) : planned;
  const unknown = unknownUntil(problem, plan);
  if (unknown !== undefined) return { ...fromWeek(problem, schedule, unknown), packed };
  const { sold, processed } = schedule;
  if (!standing?.isPacked) return { demands, sold, packed, processed, value: schedule.value };
  let { value } = schedule;
  demands.forEach(({ price, priceOfShortage }, at) => {
    standing.settled[at]?.forEach((wanted, week) => {
      const done = standing.sold[at]?.[week] ?? 0;
      value += done * price - Math.max(0, wanted - done) * priceOfShortage;
    });
  });
  const left = standing.leftOver.reduce((all, cartons) => all + cartons, 0);
  return {
    demands: demands.map((demand, at) => ({
      ...demand,
      cartons: sums(demand.cartons, standing.settled[at]),
    })),
    sold: sold.map((row, at) => sums(row, standing.sold[at])),
    packed,
    processed: processed.map((row, product) =>
      row.map((cartons, week) => cartons + (week === standing.week ? (standing.leftOver[product] ?? 0) : 0)),
    ),
    value: value + left * problem.processingPrice,
  };
}

/**
 * The week of the problem before which it is not known what was delivered: rooms were opened, and no packing is recorded,
 * or no sale. Undefined where it is known, or nothing is past.
 */
export function unknownUntil({ standing }: ReleaseProblem, { sales }: Plan): number | undefined {
  if (!standing || standing.week <= 0) return undefined;
  if (standing.isPacked) return sales.size > 0 ? undefined : standing.week;
  return standing.opened.length > 0 ? standing.week : undefined;
}

/** Of which weeks it is not known what was delivered, and of what there is no record. Undefined where it is known. */
export interface NotRecorded {
  readonly missing: 'packing' | 'sale';
  /** The first week that is told again. */
  readonly before: Week;
}

export function notRecorded(problem: ReleaseProblem, plan: Plan): NotRecorded | undefined {
  const until = unknownUntil(problem, plan);
  if (until === undefined) return undefined;
  return { missing: problem.standing?.isPacked ? 'sale' : 'packing', before: problem.firstWeek + until };
}

/** What the schedule is told to deliver of what is wanted: of weeks of which that is not known (`unknownUntil`) nothing. */
export function toldOf(
  problem: ReleaseProblem,
  schedule: ReleaseSchedule,
  plan: Plan,
): Pick<WholeSeason, 'demands' | 'sold'> {
  const until = unknownUntil(problem, plan);
  return until === undefined
    ? { demands: problem.demands, sold: schedule.sold }
    : fromWeek(problem, schedule, until);
}

/** Of orders and money only what is to come counts. */
function fromWeek(
  { demands }: ReleaseProblem,
  { sold, processed, value }: ReleaseSchedule,
  from: number,
): Omit<WholeSeason, 'packed'> {
  const toCome = (row: readonly number[]) => row.map((cartons, week) => (week < from ? 0 : cartons));
  let past = 0;
  demands.forEach(({ cartons, price, priceOfShortage }, at) => {
    for (let week = 0; week < from; week++) {
      const done = sold[at]?.[week] ?? 0;
      past += done * price - Math.max(0, (cartons[week] ?? 0) - done) * priceOfShortage;
    }
  });
  return {
    demands: demands.map((demand) => ({ ...demand, cartons: toCome(demand.cartons) })),
    sold: sold.map(toCome),
    processed,
    value: value - past,
  };
}

function sums(one: readonly number[], other: readonly number[] | undefined): readonly number[] {
  return one.map((value, at) => value + (other?.[at] ?? 0));
}
