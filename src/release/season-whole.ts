import type { ProblemDemand, ReleaseProblem, ReleaseSchedule } from './types';

/** A schedule with what was packed and sold before it, as recorded. */
export interface WholeSeason {
  readonly demands: readonly ProblemDemand[];
  /** Cartons by demand and week. */
  readonly sold: readonly (readonly number[])[];
  /** Bins by week. */
  readonly packed: readonly number[];
  /** Money: the schedule's value, and what was sold less what was short before it at the prices of the demands. */
  readonly value: number;
}

/** The whole season of a schedule that goes on from where the season stands; of any other its own figures. */
export function wholeSeasonOf(problem: ReleaseProblem, schedule: ReleaseSchedule): WholeSeason {
  const { standing, demands, weeks } = problem;
  const planned = Array.from({ length: weeks }, (_, week) =>
    schedule.packed.reduce((sum, row) => sum + (row[week] ?? 0), 0),
  );
  if (!standing?.isPacked) return { demands, sold: schedule.sold, packed: planned, value: schedule.value };
  let value = schedule.value;
  demands.forEach(({ price, priceOfShortage }, at) => {
    standing.settled[at]?.forEach((wanted, week) => {
      const sold = standing.sold[at]?.[week] ?? 0;
      value += sold * price - Math.max(0, wanted - sold) * priceOfShortage;
    });
  });
  return {
    demands: demands.map((demand, at) => ({
      ...demand,
      cartons: sums(demand.cartons, standing.settled[at]),
    })),
    sold: schedule.sold.map((row, at) => sums(row, standing.sold[at])),
    packed: sums(planned, standing.packed),
    value,
  };
}

function sums(one: readonly number[], other: readonly number[] | undefined): readonly number[] {
  return one.map((value, at) => value + (other?.[at] ?? 0));
}
