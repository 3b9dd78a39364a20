import { limitedProblem, withoutWorthless } from '../../fill/limits';
import { type FillProblemOptions, fillProblem } from '../../fill/problem';
import type { FillProblem } from '../../fill/types';
import type { ComputedSeason } from '../types';
import { fillLimits } from './limits';
import { withOtherRegimes } from './other-regimes';
import { worthStoring } from './worth-storing';

export interface FillOptionsOfSeason extends FillProblemOptions {
  /** Codes of findings that a proposal may make. */
  readonly despite?: readonly string[] | undefined;
  /** Every new warning keeps fruit out, also one that a planner may live with. */
  readonly strict?: boolean | undefined;
}

/**
 * The fill problem of a season within what its findings, its packhouse and its market allow. The season comes with a
 * release schedule, or its market is taken to be untouched.
 */
export function fillProblemOf(season: ComputedSeason, options: FillOptionsOfSeason = {}): FillProblem {
  const problem = fillProblem(season.plan, season.fruit, options);
  if (problem.lots.length === 0 || problem.rooms.length === 0) return problem;
  const barred = limitedProblem(problem, fillLimits(season, problem, options));
  const limited = withOtherRegimes(season, problem, barred, options);
  return withoutWorthless(limited, worthStoring(season, limited));
}
