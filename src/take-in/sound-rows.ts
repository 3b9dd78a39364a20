import type { RowFault } from './types';

/** A value of a record as a file has it. */
export interface RecordValue {
  /** `sealed`, or below a map: `cartons`, `first`. */
  readonly path: readonly [string] | readonly [string, string];
  readonly value: number | string;
  /** As it is to stand in the plan. */
  readonly written: string;
  /** What the plan has in its place. */
  readonly known: number | string | undefined;
}

/** What one row of a file says of a record, or several rows that are added up to one. */
export interface RowOfRecord {
  readonly id: string;
  readonly values: readonly RecordValue[];
  readonly lines: readonly number[];
}

/** Why a row is not taken, or undefined; asked of a row alone, or of one beside the others of its record. */
export type Objection<Row> = (row: Row, all: readonly Row[]) => string | undefined;

/**
 * The rows of one record to which none of the objections is made, and a fault for every line of the others. Each
 * objection is asked of the rows that those before it left, all at once: of two rows that contradict each other neither
 * is taken. The last ones are asked again until nothing more is objected to.
 */
export function soundRows<Row extends RowOfRecord>(
  rows: readonly Row[],
  objections: readonly Objection<Row>[],
): { readonly sound: readonly Row[]; readonly faults: readonly RowFault[] } {
  const faults: RowFault[] = [];
  let sound = rows;
  for (const objection of objections) {
    for (;;) {
      const left = sound.filter((row) => {
        const reason = objection(row, sound);
        if (reason !== undefined) faults.push(...faultsAt(row.lines, reason));
        return reason === undefined;
      });
      if (left.length === sound.length) break;
      sound = left;
    }
  }
  return { sound, faults };
}

/** The reason at the first line, and at each of the others that it is not taken either. */
export function faultsAt(lines: readonly number[], reason: string): RowFault[] {
  const [first = 1, ...others] = lines;
  return [
    { line: first, reason },
    ...others.map((line) => ({
      line,
      reason: `Not taken, as it goes with line ${first}: see there.`,
    })),
  ];
}

/** Another row says something else of the same. */
export function contradictsRow<Row extends RowOfRecord>(row: Row, all: readonly Row[]): string | undefined {
  for (const value of row.values)
    for (const other of all) {
      const same = other === row ? undefined : other.values.find((one) => pathText(one) === pathText(value));
      if (same && !isSame(same.value, value.value))
        return `\`${pathText(value)}\` of ${row.id} is ${value.written} here and ${same.written} in line ${other.lines[0]}: neither row is taken.`;
    }
  return undefined;
}

export function pathText({ path }: Pick<RecordValue, 'path'>): string {
  return path.join('/');
}

export function isSame(a: number | string, b: number | string): boolean {
  if (typeof a === 'string' || typeof b === 'string') return a === b;
  return Math.abs(a - b) <= 1e-6 * Math.max(1, Math.abs(a), Math.abs(b));
}
