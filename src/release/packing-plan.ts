import type { Highs } from 'highs';
import { canonicalProblem } from './canonical';
import { gapOf } from './gap';
import { solveRelaxation } from './linear';
import { buildModel } from './model';
import { replayedSchedule } from './replay';
import { valued } from './settle';
import type { ReleaseProblem, ReleaseResult } from './types';

/** Seconds after which a linear program of a season is not waited for; it needs a tenth of one at fifty rooms. */
const MOST_SECONDS = 30;
/** What values of equal schedules may differ by, as a share. */
const ROUNDING = 1e-7;

/**
 * The result with the bins packed and the cartons sold that are best at its opening weeks, by a linear program of these
 * weeks alone. However the weeks were found, by a search or as pins of the plan, the same weeks give the same packing:
 * so the release report of a plan and the papers made from it say the same. Kept as it is where that would be worth
 * less, or where the solver does not finish.
 */
export function withPackingPlan(highs: Highs, problem: ReleaseProblem, result: ReleaseResult): ReleaseResult {
  const { schedule } = result;
  const canonical = canonicalProblem(problem);
  const { rooms } = canonical.problem;
  const opensOf = new Map(problem.rooms.map(({ fill }, room) => [fill, schedule.opens[room] ?? null]));
  const plain = withoutWeeksCosts(canonical.problem);
  const model = buildModel(plain, {
    weeksOf: (room) => {
      const week = opensOf.get(rooms[room]?.fill ?? '') ?? null;
      return week === null ? [] : [week];
    },
    mustOpen: () => true,
    attribution: false,
  });
  const solution = solveRelaxation(highs, model.linear, 'corner', MOST_SECONDS);
  if (!solution.finished) return result;
  const found = replayedSchedule(plain, model, solution.columns);
  const best = canonical.restore(valued(canonical.problem, found));
  if (best.value < schedule.value - ROUNDING * Math.abs(schedule.value)) return result;
  return { ...result, schedule: best, gap: gapOf(best.value, result.bound) };
}

/** What opening weeks cost by themselves is the same for any packing; left out, the program is the same for any plan. */
function withoutWeeksCosts(problem: ReleaseProblem): ReleaseProblem {
  return {
    ...problem,
    rooms: problem.rooms.map(({ published: _, ...room }) => ({
      ...room,
      pinned: null,
      riskCost: room.riskCost.map(() => 0),
    })),
  };
}
