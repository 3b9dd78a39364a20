/** A linear program to maximise, in flat arrays: rows between limits, columns between limits, the matrix by rows. */
export interface LinearModel {
  readonly numCols: number;
  readonly numRows: number;
  /** Added to the objective. */
  readonly offset: number;
  readonly cost: Float64Array;
  readonly colLower: Float64Array;
  readonly colUpper: Float64Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  /** Where each row's entries begin in `indices` and `values`; one more than there are rows. */
  readonly starts: Int32Array;
  readonly indices: Int32Array;
  readonly values: Float64Array;
  /** 1 for a column that must be whole. */
  readonly whole: Int32Array;
}

/** Builds a linear program column by column and row by row. Every column has finite limits. */
export class LinearModelBuilder {
  private readonly cost: number[] = [];
  private readonly colLower: number[] = [];
  private readonly colUpper: number[] = [];
  private readonly whole: number[] = [];
  private readonly rowLower: number[] = [];
  private readonly rowUpper: number[] = [];
  private readonly starts: number[] = [0];
  private readonly indices: number[] = [];
  private readonly values: number[] = [];
  offset = 0;

  column(cost: number, lower: number, upper: number, whole = false): number {
    this.colLower.push(lower);
    this.colUpper.push(upper);
    this.whole.push(whole ? 1 : 0);
    return this.cost.push(cost) - 1;
  }

  /** Adds an entry to the row that `row` will close; each column at most once a row. */
  entry(column: number, value: number): void {
    if (value === 0) return;
    this.indices.push(column);
    this.values.push(value);
  }

  /** Closes the row of the entries added since the last one; a row without entries is dropped. */
  row(lower: number, upper: number): void {
    const end = this.indices.length;
    if (end === this.starts[this.starts.length - 1]) return;
    this.starts.push(end);
    this.rowLower.push(lower);
    this.rowUpper.push(upper);
  }

  build(): LinearModel {
    return {
      numCols: this.cost.length,
      numRows: this.rowLower.length,
      offset: this.offset,
      cost: Float64Array.from(this.cost),
      colLower: Float64Array.from(this.colLower),
      colUpper: Float64Array.from(this.colUpper),
      rowLower: Float64Array.from(this.rowLower),
      rowUpper: Float64Array.from(this.rowUpper),
      starts: Int32Array.from(this.starts),
      indices: Int32Array.from(this.indices),
      values: Float64Array.from(this.values),
      whole: Int32Array.from(this.whole),
    };
  }
}
