/**
 * One step of Dormand and Prince's method of order 5 with an error estimate of order 4 (Dormand and Prince 1980,
 * Journal of Computational and Applied Mathematics 6:19-26). Ours, because the course needs steps that end exactly
 * where a set-point is reached, which the small libraries at hand do not offer; it is held against closed forms.
 */
export type Derivative = (time: number, state: Float64Array, slope: Float64Array) => void;

const NODES = [0, 1 / 5, 3 / 10, 4 / 5, 8 / 9, 1, 1] as const;
const ROWS: readonly (readonly number[])[] = [
  [],
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
/** Weights of order 5 less those of order 4. */
const ERROR = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40] as const;

export class Stepper {
  readonly #slopes: readonly Float64Array[];
  readonly #probe: Float64Array;
  readonly #derivative: Derivative;
  readonly #watched: number;

  /** `watched`: how many of the states, from the first, the error estimate looks at. */
  constructor(size: number, watched: number, derivative: Derivative) {
    this.#slopes = NODES.map(() => new Float64Array(size));
    this.#probe = new Float64Array(size);
    this.#derivative = derivative;
    this.#watched = watched;
  }

  /** The slope at the start of the steps that follow: once for all lengths that are tried from there. */
  begin(time: number, state: Float64Array): void {
    this.#derivative(time, state, this.#slope(0));
  }

  /** Writes the state after a step into `result`; returns the greatest error estimate, each over its own scale. */
  step(time: number, state: Float64Array, length: number, result: Float64Array, scale: number): number {
    for (let stage = 1; stage < ROWS.length; stage++) {
      this.#combine(state, length, ROWS[stage] ?? [], stage === 6 ? result : this.#probe);
      this.#derivative(
        time + (NODES[stage] ?? 1) * length,
        stage === 6 ? result : this.#probe,
        this.#slope(stage),
      );
    }
    let worst = 0;
    for (let index = 0; index < this.#watched; index++) {
      let error = 0;
      for (let stage = 0; stage < ERROR.length; stage++) {
        error += (ERROR[stage] ?? 0) * (this.#slope(stage)[index] ?? 0);
      }
      worst = Math.max(worst, Math.abs(error * length) / scale);
    }
    return worst;
  }

  /**
   * The state a share of the way along the step last made, from its ends and slopes (Hermite's cubic). Made of states
   * and slopes alone, so whatever balances in them balances in it.
   */
  between(
    state: Float64Array,
    result: Float64Array,
    length: number,
    share: number,
    into: Float64Array,
  ): void {
    const [start, end] = [this.#slope(0), this.#slope(6)];
    const rest = 1 - share;
    const [ofStart, ofEnd] = [rest * rest * (1 + 2 * share), share * share * (1 + 2 * rest)];
    const [bendStart, bendEnd] = [length * share * rest * rest, -length * share * share * rest];
    for (let index = 0; index < into.length; index++) {
      into[index] =
        ofStart * (state[index] ?? 0) +
        ofEnd * (result[index] ?? 0) +
        bendStart * (start[index] ?? 0) +
        bendEnd * (end[index] ?? 0);
    }
  }

  #slope(stage: number): Float64Array {
    return this.#slopes[stage] ?? this.#probe;
  }

  #combine(state: Float64Array, length: number, row: readonly number[], into: Float64Array): void {
    into.set(state);
    for (let stage = 0; stage < row.length; stage++) {
      const weight = (row[stage] ?? 0) * length;
      if (weight === 0) continue;
      const slope = this.#slope(stage);
      for (let index = 0; index < into.length; index++)
        into[index] = (into[index] ?? 0) + weight * (slope[index] ?? 0);
    }
  }
}
