import type { Highs } from 'highs';
import type { Budget } from './budget';
import { certifiedBound, properMultipliers } from './certificate';
import { solveRelaxation } from './linear';
import type { LinearModel } from './linear-model';

export const RELAXATION_RESTS_ON =
  'the linear relaxation of the season, proved again from its multipliers without the solver';

/** How far a bound from the multipliers may lie above the relaxation's own value, as a share of it. */
const CLOSE_BOUND = 1e-4;

/** A bound, the multipliers that prove it and what the relaxation looks like. */
export interface ProvenBound {
  readonly bound: number;
  readonly multipliers: Float64Array;
  /** The relaxation's own columns, as far as the solver came. */
  readonly columns: Float64Array;
}

/**
 * A proven limit from the model's relaxation. The ways are tried in turn until the multipliers prove what the solver
 * claims: the interior point is fast on large models but may stop short, which its multipliers then show.
 */
export function relaxationBound(
  highs: Highs,
  model: LinearModel,
  ways: readonly ('interior' | 'corner')[],
  time: Budget,
): ProvenBound {
  let bound = Number.POSITIVE_INFINITY;
  let multipliers: Float64Array = new Float64Array(model.numRows);
  let columns: Float64Array = new Float64Array(model.numCols);
  for (const way of ways) {
    if (time.spent && bound < Number.POSITIVE_INFINITY) break;
    const relaxed = solveRelaxation(highs, model, way, time.left);
    time.spend(relaxed.seconds);
    columns = relaxed.columns;
    const proven = certifiedBound(model, relaxed.multipliers);
    if (proven < bound) multipliers = properMultipliers(model, relaxed.multipliers);
    bound = Math.min(bound, proven);
    if (relaxed.finished && bound - relaxed.value <= CLOSE_BOUND * Math.abs(relaxed.value)) break;
  }
  return { bound, multipliers, columns };
}
