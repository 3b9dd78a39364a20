import type { Highs, Model } from 'highs';
import type { LinearModel } from './linear-model';
import { type StepsTaken, secondsOfSolve, stepsWithin } from './work';

/**
 * Power of two by which the objective is scaled for the interior point. Prices beside shares of rooms spread the
 * numbers so widely that unscaled it sometimes gives up half-way.
 */
const OBJECTIVE_SCALE = -6;

/** Loads the solver: from its package, or from a place the caller knows. */
export type LoadHighs = () => Promise<Highs>;

export interface LinearSolution {
  readonly columns: Float64Array;
  /** Multipliers of the rows, of either sign: see `certifiedBound`. */
  readonly multipliers: Float64Array;
  readonly value: number;
  /** True where the solver says it finished. */
  readonly finished: boolean;
  /** Seconds of counted work. */
  readonly seconds: number;
}

/**
 * Solves the relaxation. `corner` finds a vertex, whose numbers are clean; `interior` stops at an interior point,
 * which is much faster on large models and as good for a bound. Ends after as many steps as `limitSeconds` are enough
 * for, counted and not timed, so that it repeats. Not to prepare a small model pays in a solver that is fresh: preparing
 * takes hardly longer than it saves, and much program that has to be compiled first.
 */
export function solveRelaxation(
  highs: Highs,
  model: LinearModel,
  way: 'corner' | 'interior',
  limitSeconds: number,
  prepare: 'as it sees fit' | 'not' = 'as it sees fit',
): LinearSolution {
  // The solver refuses a model of nothing, which is what is left where no room can be opened.
  if (model.numCols === 0)
    return {
      columns: new Float64Array(0),
      multipliers: new Float64Array(model.numRows),
      value: model.offset,
      finished: true,
      seconds: 0,
    };
  return highs.withModel(modelData(highs, model, false), (solver) => {
    const most = stepsWithin(model, way, limitSeconds);
    solver.options.set({ output_flag: false, simplex_iteration_limit: most, ipm_iteration_limit: most });
    if (prepare === 'not') solver.options.set({ presolve: 'off' });
    if (way === 'interior')
      solver.options.set({ solver: 'ipm', run_crossover: 'off', user_objective_scale: OBJECTIVE_SCALE });
    solver.run();
    const { colValue, rowDual } = solver.getSolution();
    const status = solver.getModelStatus();
    const { optimal, unknown } = highs.constants.modelStatus;
    return {
      columns: colValue,
      multipliers: rowDual,
      value: solver.getObjectiveValue(),
      // An interior point without a vertex ends as "unknown".
      finished: status === optimal || (way === 'interior' && status === unknown),
      seconds: secondsOfSolve(model, stepsOf(solver)),
    };
  });
}

/** Steps of the last run. */
export function stepsOf(solver: Model): StepsTaken {
  const count = (name: string) => Math.max(0, Number(solver.info.get(name)));
  return { corner: count('simplex_iteration_count'), interior: count('ipm_iteration_count') };
}

export interface IntegerSolution {
  readonly columns: Float64Array;
  readonly bound: number;
  readonly value: number;
  readonly seconds: number;
}

/** Whole columns and the values to start from. */
export interface Start {
  readonly indices: Int32Array;
  readonly values: Float64Array;
}

/** Branch and bound from a known schedule; undefined where the solver has none to show for it. */
export function solveInteger(
  highs: Highs,
  model: LinearModel,
  start: Start,
  options: {
    readonly gap: number;
    readonly timeLimitSeconds: number;
    readonly onBound?: ((value: number, bound: number) => void) | undefined;
    readonly shouldStop?: (() => boolean) | undefined;
  },
): IntegerSolution | undefined {
  if (model.numCols === 0) return undefined;
  return highs.withModel(modelData(highs, model, true), (solver) => {
    solver.options.set({
      output_flag: false,
      time_limit: options.timeLimitSeconds,
      mip_rel_gap: options.gap,
      mip_abs_gap: 1e-4,
      mip_heuristic_effort: 0,
      mip_allow_restart: false,
    });
    solver.setSolution(start);
    runInteger(highs, solver, options);
    const bound = Number(solver.info.get('mip_dual_bound'));
    const value = solver.getObjectiveValue();
    if (!Number.isFinite(value) || !Number.isFinite(bound)) return undefined;
    return { columns: solver.getSolution().colValue, bound, value, seconds: solver.getRunTime() };
  });
}

function runInteger(
  highs: Highs,
  solver: Model,
  options: {
    readonly onBound?: ((value: number, bound: number) => void) | undefined;
    readonly shouldStop?: (() => boolean) | undefined;
  },
): void {
  const { mipInterrupt, mipImprovingSolution } = highs.constants.callbackType;
  solver.run({
    [mipImprovingSolution](event: { data: { mip_primal_bound?: number; mip_dual_bound?: number } }) {
      const { mip_primal_bound: value, mip_dual_bound: bound } = event.data;
      if (value !== undefined && bound !== undefined) options.onBound?.(value, bound);
      return undefined;
    },
    [mipInterrupt](event: { interrupt(): void }) {
      if (options.shouldStop?.()) event.interrupt();
      return undefined;
    },
  });
}

/** The model as the solver takes it; columns are whole only where asked. */
export function modelData(highs: Highs, model: LinearModel, whole: boolean) {
  return {
    numCols: model.numCols,
    numRows: model.numRows,
    sense: highs.constants.objectiveSense.maximize,
    offset: model.offset,
    colCost: model.cost,
    colLower: model.colLower,
    colUpper: model.colUpper,
    rowLower: model.rowLower,
    rowUpper: model.rowUpper,
    matrix: {
      format: 'csr' as const,
      numRows: model.numRows,
      numCols: model.numCols,
      starts: model.starts,
      indices: model.indices,
      values: model.values,
    },
    ...(whole ? { integrality: model.whole } : {}),
  };
}
