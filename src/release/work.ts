import type { LinearModel } from './linear-model';

/**
 * Work in seconds, as a usual machine takes for it: measured on the machine that the benchmark runs on, and rounded up. It
 * is counted by what is done and never timed, so that a limit in seconds means the same work on every machine, whatever
 * else it is busy with.
 */

/** Looking at a slot of a season at prices, with all that goes with it. */
export const SECONDS_A_SLOT = 2.5e-7;

/** One step of the simplex method: so much, and so much more for each row. */
const [STEP, STEP_A_ROW] = [3e-5, 2e-8];
/** One step of the interior point, for each number in the model's rows. */
const INTERIOR_STEP_A_VALUE = 1.3e-6;
/** What goes with any solve, for each number in the model's rows: handing it over, proving the bound again. */
const SOLVE_A_VALUE = 1e-6;

export interface StepsTaken {
  readonly corner: number;
  readonly interior: number;
}

/** Seconds that one step of a way to solve the model counts. */
export function secondsOfStep(model: LinearModel, way: 'corner' | 'interior'): number {
  return way === 'corner' ? STEP + STEP_A_ROW * model.numRows : INTERIOR_STEP_A_VALUE * model.values.length;
}

/** Seconds that a solve of the model counts, for the steps that it took. */
export function secondsOfSolve(model: LinearModel, steps: StepsTaken): number {
  return (
    SOLVE_A_VALUE * model.values.length +
    steps.corner * secondsOfStep(model, 'corner') +
    steps.interior * secondsOfStep(model, 'interior')
  );
}

/** Steps of a way that so many seconds are enough for; at least one. */
export function stepsWithin(model: LinearModel, way: 'corner' | 'interior', seconds: number): number {
  return Math.max(1, Math.min(MOST_STEPS, Math.floor(seconds / secondsOfStep(model, way))));
}

/** As many as the solver's options take. */
const MOST_STEPS = 2 ** 31 - 1;
