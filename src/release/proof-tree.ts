import { certifiedBound } from './certificate';
import type { LinearModel } from './linear-model';

/** Columns of which at most one is 1, in an order: the opening weeks of a room. */
export interface Choice {
  readonly columns: readonly number[];
  /** The row that holds their sum; null for a single column, which needs none. */
  readonly row: number | null;
}

/**
 * Why a mixed-integer program cannot bring more than its bound: cases that together leave nothing out, and multipliers
 * for the relaxation of each. Whoever does not trust the solver works the bound out from it, with `boundOfTree`.
 */
export type ProofTree = ProofLeaf | ProofWeeks | ProofOpen;

export interface ProofLeaf {
  readonly kind: 'leaf';
  readonly multipliers: Float64Array;
}

/** Either none of the choice's columns from place `at` on is 1, or none before it. */
export interface ProofWeeks {
  readonly kind: 'weeks';
  readonly choice: number;
  readonly at: number;
  readonly before: ProofTree;
  readonly after: ProofTree;
}

/** Either none of the choice's columns is 1, or one of them. */
export interface ProofOpen {
  readonly kind: 'open';
  readonly choice: number;
  readonly none: ProofTree;
  readonly one: ProofTree;
}

/** Limits of columns and rows along a way down the tree. */
export interface Limits {
  readonly colLower: Float64Array;
  readonly colUpper: Float64Array;
  readonly rowLower: Float64Array;
}

export function limitsOf(model: LinearModel): Limits {
  return {
    colLower: model.colLower.slice(),
    colUpper: model.colUpper.slice(),
    rowLower: model.rowLower.slice(),
  };
}

/** The limits with a choice held to the columns from place `first` up to and not including `end`. */
export function withinWeeks(limits: Limits, choice: Choice, first: number, end: number): Limits {
  const colUpper = limits.colUpper.slice();
  choice.columns.forEach((column, place) => {
    if (place < first || place >= end) colUpper[column] = 0;
  });
  return { ...limits, colUpper };
}

/** The limits with one of the choice's columns at 1. */
export function withOne(limits: Limits, { columns, row }: Choice): Limits {
  if (row !== null) {
    const rowLower = limits.rowLower.slice();
    rowLower[row] = 1;
    return { ...limits, rowLower };
  }
  const colLower = limits.colLower.slice();
  for (const column of columns) colLower[column] = 1;
  return { ...limits, colLower };
}

/**
 * The bound that a tree of cases proves, worked out from the model, the cases and their multipliers alone. Throws where
 * a case leaves something out because its columns are no choice.
 */
export function boundOfTree(model: LinearModel, choices: readonly Choice[], tree: ProofTree): number {
  for (const choice of choices)
    if (!isChoice(model, choice)) throw new RangeError('these columns are no choice of at most one');
  return boundBelow(model, choices, tree, limitsOf(model));
}

function boundBelow(model: LinearModel, choices: readonly Choice[], tree: ProofTree, limits: Limits): number {
  if (tree.kind === 'leaf') return certifiedBound({ ...model, ...limits }, tree.multipliers);
  const choice = choices[tree.choice];
  if (!choice) throw new RangeError(`no choice ${tree.choice}`);
  const below = (one: ProofTree, its: Limits) => boundBelow(model, choices, one, its);
  const all = choice.columns.length;
  if (tree.kind === 'weeks')
    return Math.max(
      below(tree.before, withinWeeks(limits, choice, 0, tree.at)),
      below(tree.after, withinWeeks(limits, choice, tree.at, all)),
    );
  return Math.max(
    below(tree.none, withinWeeks(limits, choice, 0, 0)),
    below(tree.one, withOne(limits, choice)),
  );
}

/** True where the model lets at most one of the columns be 1, and none be anything between. */
export function isChoice(model: LinearModel, { columns, row }: Choice): boolean {
  const zeroOrOne = (column: number) =>
    model.whole[column] === 1 && (model.colLower[column] ?? -1) >= 0 && (model.colUpper[column] ?? 2) <= 1;
  if (columns.length === 0 || !columns.every(zeroOrOne)) return false;
  if (row === null) return columns.length === 1;
  if (!((model.rowUpper[row] ?? 2) <= 1)) return false;
  const held = new Set<number>();
  for (let at = model.starts[row] ?? 0; at < (model.starts[row + 1] ?? 0); at++) {
    const [column, value] = [model.indices[at] ?? 0, model.values[at] ?? 0];
    if (value < 0 || (model.colLower[column] ?? -1) < 0) return false;
    if (value === 1) held.add(column);
  }
  // Raising the row's lower limit says that one of these is 1 only where the row has no others.
  return columns.every((column) => held.has(column)) && countOf(model, row) === columns.length;
}

function countOf({ starts }: LinearModel, row: number): number {
  return (starts[row + 1] ?? 0) - (starts[row] ?? 0);
}
