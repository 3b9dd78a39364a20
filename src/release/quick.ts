import { finish, type Steps } from '../plan/steps';
import { canonicalProblem } from './canonical';
import { findConflicts } from './conflicts';
import { gapOf, isProven } from './gap';
import { searchSteps } from './search';
import { settledSchedule } from './settle';
import { SIMPLE_BOUND_RESTS_ON, simpleBound } from './simple-bound';
import type { ReleaseProblem, ReleaseResult, SearchOptions } from './types';

/**
 * A fair schedule in a fraction of a second, without a solver: what the editor and `check` show as the planner types.
 * Deterministic for a seed, and the same whatever the order of the plan's entries.
 */
export function quickRelease(problem: ReleaseProblem, options: SearchOptions): ReleaseResult {
  return finish(quickReleaseSteps(problem, options));
}

/** The same in steps. */
export function* quickReleaseSteps(problem: ReleaseProblem, options: SearchOptions): Steps<ReleaseResult> {
  const canonical = canonicalProblem(problem);
  const conflicts = findConflicts(canonical.problem);
  yield;
  const found = yield* searchSteps(canonical.problem, conflicts.unmet, options);
  yield;
  const schedule = settledSchedule(canonical.problem, found);
  yield;
  const bound = simpleBound(canonical.problem, conflicts.unmet);
  const gap = gapOf(schedule.value, bound);
  return {
    schedule: canonical.restore(schedule),
    bound,
    gap,
    boundRestsOn: SIMPLE_BOUND_RESTS_ON,
    provenOptimal: isProven(gap),
    conflicts: conflicts.messages,
    unmet: canonical.originalRooms(conflicts.unmet),
  };
}
