import { BadCell, RowCells } from './cells';
import type { RowFault, TableLayout, TableRow } from './types';

/** Runs `take` on each row; what it throws as `BadCell` is that row's fault, and the next row is taken all the same. */
export function rowByRow<T>(
  rows: readonly TableRow[],
  layout: TableLayout,
  take: (cells: RowCells, line: number) => T,
): { taken: T[]; faults: RowFault[] } {
  const taken: T[] = [];
  const faults: RowFault[] = [];
  for (const row of rows) {
    try {
      taken.push(take(new RowCells(row, layout), row.line));
    } catch (error) {
      if (!(error instanceof BadCell)) throw error;
      faults.push({ line: row.line, reason: error.message });
    }
  }
  return { taken, faults };
}
