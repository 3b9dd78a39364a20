/** Columns with what stands before them in a row. */
export type Terms = readonly (readonly [column: number, factor: number])[];

/** A mixed-integer program to be minimised, as it is written down: columns, then rows between limits. */
export class LinearRows {
  readonly cost: number[] = [];
  readonly least: number[] = [];
  readonly most: number[] = [];
  readonly whole: number[] = [];
  readonly rows: { readonly terms: Terms; readonly low: number; readonly high: number }[] = [];

  column(cost: number, least: number, most: number, whole = false): number {
    this.least.push(least);
    this.most.push(most);
    this.whole.push(whole ? 1 : 0);
    return this.cost.push(cost) - 1;
  }

  row(terms: Terms, low: number, high: number): void {
    if (terms.length > 0) this.rows.push({ terms, low, high });
  }
}
