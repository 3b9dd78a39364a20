import type { LinearModel } from './linear-model';

/** Rounding of the sums below, as a share of what is summed. */
const ROUNDING = 1e-9;

/**
 * An upper limit on the model's value that follows from any multipliers whatever, by weak duality, so that the solver
 * need not be believed: with a multiplier y for each row,
 *
 *     bound = offset + sum over rows of (y > 0 ? y upper : y lower)
 *                    + sum over columns of the most that (cost - y A) x can be between the column's limits.
 *
 * A multiplier whose row has no limit on its side counts as 0. Good multipliers give a close bound, bad ones a loose
 * one, none a wrong one. Solvers differ in the sign of what they report, so both are tried and the lower bound taken.
 */
export function certifiedBound(model: LinearModel, multipliers: ArrayLike<number>): number {
  return Math.min(boundFrom(model, multipliers, 1), boundFrom(model, multipliers, -1));
}

/**
 * The multipliers that `certifiedBound` takes its bound from: of the sign that proves more, and 0 where a row has no
 * limit on their side.
 */
export function properMultipliers(model: LinearModel, multipliers: ArrayLike<number>): Float64Array {
  const sign = boundFrom(model, multipliers, 1) <= boundFrom(model, multipliers, -1) ? 1 : -1;
  return Float64Array.from({ length: model.numRows }, (_, row) => {
    const given = sign * (multipliers[row] ?? 0);
    const limit = (given > 0 ? model.rowUpper[row] : model.rowLower[row]) ?? 0;
    return Number.isFinite(given) && Number.isFinite(limit) ? given : 0;
  });
}

function boundFrom(model: LinearModel, multipliers: ArrayLike<number>, sign: 1 | -1): number {
  const { cost, colLower, colUpper, rowLower, rowUpper, starts, indices, values } = model;
  const reduced = cost.slice();
  let [bound, summed] = [model.offset, Math.abs(model.offset)];
  for (let row = 0; row < model.numRows; row++) {
    const given = sign * (multipliers[row] ?? 0);
    const limit = (given > 0 ? rowUpper[row] : rowLower[row]) ?? 0;
    if (given === 0 || !Number.isFinite(given) || !Number.isFinite(limit)) continue;
    bound += given * limit;
    summed += Math.abs(given * limit);
    const end = starts[row + 1] ?? 0;
    for (let at = starts[row] ?? 0; at < end; at++) {
      const column = indices[at] as number;
      reduced[column] = (reduced[column] as number) - given * (values[at] as number);
    }
  }
  for (let column = 0; column < model.numCols; column++) {
    const gain = reduced[column] as number;
    const most = gain * ((gain > 0 ? colUpper[column] : colLower[column]) as number);
    bound += most;
    summed += Math.abs(most);
  }
  return bound + ROUNDING * summed;
}
