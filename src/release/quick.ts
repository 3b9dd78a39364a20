import { canonicalProblem } from './canonical';
import { findConflicts } from './conflicts';
import { gapOf } from './gap';
import { searchSchedule } from './search';
import { settledSchedule } from './settle';
import { SIMPLE_BOUND_RESTS_ON, simpleBound } from './simple-bound';
import type { ReleaseProblem, ReleaseResult, SearchOptions } from './types';

/**
 * A fair schedule in a fraction of a second, without a solver: what the editor and `check` show as the planner types.
 * Deterministic for a seed, and the same whatever the order of the plan's entries.
 */
export function quickRelease(problem: ReleaseProblem, options: SearchOptions): ReleaseResult {
  const canonical = canonicalProblem(problem);
  const conflicts = findConflicts(canonical.problem);
  const found = searchSchedule(canonical.problem, conflicts.unmet, options);
  const schedule = settledSchedule(canonical.problem, found);
  const bound = simpleBound(canonical.problem, conflicts.unmet);
  return {
    schedule: canonical.restore(schedule),
    bound,
    gap: gapOf(schedule.value, bound),
    boundRestsOn: SIMPLE_BOUND_RESTS_ON,
    provenOptimal: false,
    conflicts: conflicts.messages,
    unmet: canonical.originalRooms(conflicts.unmet),
  };
}
