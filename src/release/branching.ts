import type { Highs, Model } from 'highs';
import { certifiedBound } from './certificate';
import { modelData, stepsOf } from './linear';
import type { LinearModel } from './linear-model';
import { type Choice, type Limits, limitsOf, type ProofTree, withinWeeks, withOne } from './proof-tree';
import { secondsOfSolve } from './work';

/** Shares of a column below this are rounding. */
const WHOLE = 1e-6;

/** Multiples of a ray that prove a case impossible, tried in turn. */
const RAYS = [1, 1e3, 1e6];

/** A case that is not taken apart yet. */
interface OpenCase {
  readonly limits: Limits;
  readonly multipliers: Float64Array;
  readonly bound: number;
  /** Values of each choice's columns in the relaxation; empty where it has none. */
  readonly shares: readonly Float64Array[];
  /** Where the tree continues when this case is taken apart. */
  readonly put: (tree: ProofTree) => void;
}

/**
 * Branch and bound over choices, one case at a time, the one with the highest bound first. Each case's bound is worked
 * out from its multipliers, never taken from the solver, and the tree of cases is kept, so that the whole can be proved
 * again. Counts cases and knows no clock, so that it repeats. Holds memory of the solver until `dispose`.
 */
export class Branching {
  private readonly solver: Model;
  private readonly open: OpenCase[] = [];
  private tree: ProofTree = { kind: 'leaf', multipliers: new Float64Array(0) };
  private ended = false;
  /** Relaxations solved. */
  cases = 0;
  /** Seconds of counted work. */
  seconds = 0;

  constructor(
    private readonly highs: Highs,
    private readonly model: LinearModel,
    private readonly choices: readonly Choice[],
    /** How much each choice matters: rooms by their bins. */
    private readonly weights: readonly number[],
    /** Called with the place of the column that is 1 in each choice, -1 for none, where a relaxation comes out whole. */
    private readonly onWhole: (places: readonly number[], bound: number) => void = () => {},
  ) {
    this.solver = highs.createModel(modelData(highs, model, false));
    this.solver.options.set({ output_flag: false });
    const multipliers = new Float64Array(model.numRows);
    const from = { limits: limitsOf(model), multipliers, bound: certifiedBound(model, multipliers) };
    this.add(from.limits, { ...from, shares: [], put: (tree) => this.setRoot(tree) });
  }

  dispose(): void {
    this.solver.dispose();
  }

  /** The most the model can bring, as far as is proven. */
  get bound(): number {
    return this.open.reduce((most, { bound }) => Math.max(most, bound), Number.NEGATIVE_INFINITY);
  }

  /** True where the case with the highest bound cannot be taken apart: the bound is as low as it gets. */
  get done(): boolean {
    return this.ended;
  }

  get proof(): ProofTree {
    return this.tree;
  }

  /** Takes the case with the highest bound apart into two. */
  step(): void {
    const at = this.worst();
    const one = this.open[at];
    const split = one && this.splitOf(one);
    if (!one || !split) {
      this.ended = true;
      return;
    }
    this.open.splice(at, 1);
    const { choice, place } = split;
    const chosen = this.choices[choice] as Choice;
    if (place === null) {
      const node = { kind: 'open' as const, choice, none: leaf(one), one: leaf(one) };
      one.put(node);
      this.add(withinWeeks(one.limits, chosen, 0, 0), { ...one, put: (tree) => (node.none = tree) });
      this.add(withOne(one.limits, chosen), { ...one, put: (tree) => (node.one = tree) });
      return;
    }
    const node = { kind: 'weeks' as const, choice, at: place, before: leaf(one), after: leaf(one) };
    one.put(node);
    this.add(withinWeeks(one.limits, chosen, 0, place), { ...one, put: (tree) => (node.before = tree) });
    this.add(withinWeeks(one.limits, chosen, place, chosen.columns.length), {
      ...one,
      put: (tree) => (node.after = tree),
    });
  }

  private setRoot(tree: ProofTree): void {
    this.tree = tree;
  }

  private worst(): number {
    let worst = 0;
    this.open.forEach(({ bound }, at) => {
      if (bound > (this.open[worst]?.bound ?? bound)) worst = at;
    });
    return worst;
  }

  /** Solves a case that comes from another; the other's multipliers hold for it too. */
  private add(limits: Limits, from: OpenCase): void {
    const { model, solver } = this;
    const restricted = { ...model, ...limits };
    const every = Int32Array.from({ length: model.numCols }, (_, column) => column);
    solver.changeColsBounds({ kind: 'set', indices: every }, limits.colLower, limits.colUpper);
    const rows = Int32Array.from({ length: model.numRows }, (_, row) => row);
    solver.changeRowsBounds({ kind: 'set', indices: rows }, limits.rowLower, model.rowUpper);
    solver.run();
    this.cases += 1;
    this.seconds += secondsOfSolve(model, stepsOf(solver));
    const { colValue, rowDual } = solver.getSolution();
    let [multipliers, bound] = [from.multipliers, from.bound];
    for (const tried of [rowDual, ...this.rays(from.multipliers)]) {
      const its = certifiedBound(restricted, tried);
      if (its < bound) [multipliers, bound] = [tried.slice(), its];
    }
    const finished = solver.getModelStatus() === this.highs.constants.modelStatus.optimal;
    const shares = finished
      ? this.choices.map(({ columns }) => Float64Array.from(columns, (column) => colValue[column] ?? 0))
      : [];
    const added: OpenCase = { limits, multipliers, bound, shares, put: from.put };
    this.open.push(added);
    from.put(leaf(added));
    if (finished && !this.splitOf(added)) this.onWhole(shares.map(likeliest), bound);
  }

  /** Multipliers that prove an impossible case to be one: the more of the ray, the lower the bound. */
  private rays(multipliers: Float64Array): Float64Array[] {
    const { infeasible } = this.highs.constants.modelStatus;
    if (this.solver.getModelStatus() !== infeasible) return [];
    const ray = this.solver.getDualRay()?.values;
    if (!ray) return [];
    const scale = 1 + multipliers.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
    return [1, -1].flatMap((sign) =>
      RAYS.map((times) => multipliers.map((one, row) => one + sign * times * scale * (ray[row] ?? 0))),
    );
  }

  /** The choice that is most divided, and where to part it; a null place parts none from one. Undefined if all is whole. */
  private splitOf({ shares }: OpenCase): { choice: number; place: number | null } | undefined {
    let [best, choice, place] = [0, -1, 0];
    let undecided = -1;
    shares.forEach((columns, index) => {
      let [mass, middle] = [0, 0];
      columns.forEach((share, at) => {
        mass += share;
        middle += share * at;
      });
      if (mass <= WHOLE) return;
      if (mass < 1 - WHOLE) undecided = index;
      middle /= mass;
      const apart = columns.reduce((sum, share, at) => sum + share * Math.abs(at - middle), 0);
      const matters = apart * (this.weights[index] ?? 1);
      if (apart <= WHOLE || matters <= best) return;
      best = matters;
      choice = index;
      place = Math.floor(middle) + 1;
    });
    if (choice >= 0) return { choice, place };
    return undecided >= 0 ? { choice: undecided, place: null } : undefined;
  }
}

function leaf({ multipliers }: { readonly multipliers: Float64Array }): ProofTree {
  return { kind: 'leaf', multipliers };
}

function likeliest(shares: Float64Array): number {
  let [best, most] = [-1, 0];
  shares.forEach((share, place) => {
    if (share > most) [best, most] = [place, share];
  });
  return most > WHOLE ? best : -1;
}
