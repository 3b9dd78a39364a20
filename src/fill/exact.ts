import type { Highs } from 'highs';
import type { LinearRows } from './linear-rows';
import type { LoadPart } from './load';
import { loadOf } from './load';
import { type FillModel, fillModel, type Move } from './model';
import { FillState } from './state';
import type { FillProblem } from './types';

/** Rooms up to which the exact model is worth its time. */
export const MOST_ROOMS_EXACT = 6;

/** Nodes of branch and bound: a count and not a time, so that the same plan gives the same fill. */
const MOST_NODES = 3000;

export interface ExactFill {
  /** Undefined where the solver found none. */
  readonly state: FillState | undefined;
  /** No fill costs less. */
  readonly bound: number;
  readonly proven: boolean;
}

/**
 * The cheapest fill by mixed-integer program. The solver's words are not taken for it: the
 * fill is put together anew from the bins it moves, with the cost of every other fill.
 */
export function exactFill(highs: Highs, problem: FillProblem, timeLimitSeconds: number): ExactFill {
  const model = fillModel(problem);
  return withModel(highs, model.rows, (solver) => {
    const { modelStatus } = highs.constants;
    solver.options.set({
      output_flag: false,
      time_limit: timeLimitSeconds,
      mip_max_nodes: MOST_NODES,
      mip_rel_gap: 0,
      mip_abs_gap: 1e-4,
      mip_feasibility_tolerance: 1e-7,
    });
    solver.run();
    const proven = solver.getModelStatus() === modelStatus.optimal;
    const bound = Number(solver.info.get('mip_dual_bound'));
    const found = Number.isFinite(solver.getObjectiveValue());
    const columns = found ? solver.getSolution().colValue : undefined;
    return {
      state: columns && stateOf(problem, model, columns),
      bound: Number.isFinite(bound) ? bound : 0,
      proven,
    };
  });
}

type Solver = Parameters<Parameters<Highs['withModel']>[1]>[0];

function withModel<T>(highs: Highs, rows: LinearRows, work: (solver: Solver) => T): T {
  const starts = [0];
  const indices: number[] = [];
  const values: number[] = [];
  for (const { terms } of rows.rows) {
    for (const [column, factor] of terms) {
      indices.push(column);
      values.push(factor);
    }
    starts.push(indices.length);
  }
  const limit = (value: number) => (Number.isFinite(value) ? value : Math.sign(value) * highs.infinity);
  const [numCols, numRows] = [rows.cost.length, rows.rows.length];
  return highs.withModel(
    {
      numCols,
      numRows,
      sense: highs.constants.objectiveSense.minimize,
      offset: 0,
      colCost: Float64Array.from(rows.cost),
      colLower: Float64Array.from(rows.least),
      colUpper: Float64Array.from(rows.most),
      rowLower: Float64Array.from(rows.rows, ({ low }) => limit(low)),
      rowUpper: Float64Array.from(rows.rows, ({ high }) => limit(high)),
      integrality: Int32Array.from(rows.whole),
      matrix: {
        format: 'csr',
        numCols,
        numRows,
        starts: Int32Array.from(starts),
        indices: Int32Array.from(indices),
        values: Float64Array.from(values),
      },
    },
    work,
  );
}

/** The fill of the bins moved; undefined where it does not hold, which would be the model's mistake. */
function stateOf(
  problem: FillProblem,
  { moves }: FillModel,
  columns: ArrayLike<number>,
): FillState | undefined {
  const state = new FillState(problem);
  const taken = moves.filter(({ column }) => Math.round(columns[column] ?? 0) > 0);
  for (const [index, room] of problem.rooms.entries()) {
    const mine = taken.filter((move) => move.room === index);
    const [first] = mine;
    if (!first) continue;
    const load = loadOf(problem, room, first.regime, partsOf(problem, mine, columns));
    if (!load) return undefined;
    state.set(index, load);
  }
  return state;
}

function partsOf(problem: FillProblem, moves: readonly Move[], columns: ArrayLike<number>): LoadPart[] {
  const lots = [...new Set(moves.map(({ lot }) => lot))];
  return lots.map((lot) => {
    const byArrival = (problem.lots[lot]?.arrivals ?? []).map((_, arrival) =>
      moves
        .filter((move) => move.lot === lot && move.arrival === arrival)
        .reduce((sum, { column }) => sum + Math.round(columns[column] ?? 0), 0),
    );
    return { lot, byArrival, bins: byArrival.reduce((sum, bins) => sum + bins, 0) };
  });
}
