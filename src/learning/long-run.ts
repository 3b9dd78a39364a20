/**
 * How far a sum of things that came one after another may be off by chance, where neighbours are alike: weather and
 * sensors that wander outlast one rest. Neither each rest nor each block of a set length is then a witness of its own.
 */

/** The long-run spread of rows of numbers in the order of time, and of how many degrees of freedom it is known. */
export interface LongRun {
  /** By row and column: variances and covariances of the sums. */
  readonly covariance: readonly (readonly number[])[];
  readonly degrees: number;
}

/**
 * From the sums weighted with cosines of 1, 2, 3 ... half waves over the whole record: what changes slowly shows in the
 * slowest waves as large as it is in the sum, and each wave is a degree of freedom. 0.4 n^(2/3) waves of n: Lazarus,
 * Lewis, Stock and Watson (2018), Journal of Business and Economic Statistics 36, 541-559, from memory.
 */
export function longRun(rows: readonly ArrayLike<number>[], unknowns: number): LongRun {
  const count = rows.length;
  const waves = wavesOf(count, unknowns);
  const sums: Float64Array[] = [];
  for (let wave = 1; wave <= waves; wave++) {
    const sum = new Float64Array(rows[0]?.length ?? 0);
    rows.forEach((row, index) => {
      const height = Math.SQRT2 * Math.cos((Math.PI * wave * (index + 0.5)) / count);
      for (let column = 0; column < sum.length; column++)
        sum[column] = (sum[column] ?? 0) + height * (row[column] ?? 0);
    });
    sums.push(sum);
  }
  const width = rows[0]?.length ?? 0;
  const mean = (row: number, column: number) =>
    sums.reduce((total, sum) => total + (sum[row] ?? 0) * (sum[column] ?? 0), 0) / waves;
  return {
    covariance: Array.from({ length: width }, (_, row) =>
      Array.from({ length: width }, (_, column) => mean(row, column)),
    ),
    degrees: waves,
  };
}

const FEWEST_WAVES = 4;

function wavesOf(count: number, unknowns: number): number {
  const waves = Math.max(FEWEST_WAVES, Math.floor(0.4 * count ** (2 / 3)));
  return Math.max(0, Math.min(count - unknowns, waves));
}
