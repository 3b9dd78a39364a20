import { sourcesOf } from './sources';
import type { ProblemDemand, ProblemRoom, ReleaseProblem } from './types';

/**
 * Most cartons that any schedule delivers of an order: every room that may be packed in time gives it all of its bins, in
 * the week in which they give it most. The packhouse and other orders are left out, so no schedule delivers more.
 */
export function mostForOrder(
  problem: ReleaseProblem,
  demand: ProblemDemand,
  unmet: readonly number[] = [],
): number {
  const wanted = demand.cartons.reduce((sum, cartons) => sum + cartons, 0);
  const inTime = weeksInTime(problem, demand);
  const given = problem.rooms.reduce(
    (sum, room, index) => (unmet.includes(index) ? sum : sum + room.bins * mostABin(problem, room, inTime)),
    0,
  );
  return Math.min(wanted, given);
}

/** For each product the order takes, whether what is packed in a week may still be sold to it: `[week]`. */
function weeksInTime(
  problem: ReleaseProblem,
  demand: ProblemDemand,
): readonly { readonly product: number; readonly weeks: readonly boolean[] }[] {
  const { weeks, packedWaitWeeks } = problem;
  return sourcesOf(problem, demand).map(({ product, until }) => ({
    product,
    weeks: Array.from({ length: weeks }, (_, week) =>
      demand.cartons.some(
        (cartons, sold) => cartons > 0 && sold >= week && sold <= Math.min(week + packedWaitWeeks, until),
      ),
    ),
  }));
}

function mostABin(
  { weeks }: ReleaseProblem,
  { pinned, earliest, latest, weeksToEmpty, cartonsABin }: ProblemRoom,
  inTime: ReturnType<typeof weeksInTime>,
): number {
  const last = Math.min(weeks - 1, (pinned ?? latest) + weeksToEmpty - 1);
  let most = 0;
  for (let week = pinned ?? earliest; week <= last; week++) {
    const aBin = inTime.reduce(
      (sum, source) => sum + (source.weeks[week] ? (cartonsABin[week]?.[source.product] ?? 0) : 0),
      0,
    );
    most = Math.max(most, aBin);
  }
  return most;
}
