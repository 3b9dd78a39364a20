import type { TextEdit } from '../plan/problem';
import type { TableLayout as PlanTableLayout, TableKind } from '../plan/table-model';

/** How a file is laid out, as the plan says under `tables`: one whose kind is known. */
export type TableLayout = Omit<PlanTableLayout, 'holds' | 'at' | 'places'> & { readonly holds: TableKind };

/** A row of the file as read: the text of each field, and the line it begins in, counted from 1. */
export interface TableRow {
  readonly line: number;
  readonly fields: ReadonlyMap<string, string>;
}

/** Why a row, or the whole file, is not taken. */
export interface RowFault {
  /** The line of the file, counted from 1. */
  readonly line: number;
  readonly reason: string;
}

/** What the file changes at one place of the plan. */
export interface TableChange {
  readonly file: string;
  /** The entry, as `lot L12`. */
  readonly entry: string;
  /** The key below it, as `received-by-day/2026-09-05`. */
  readonly key: string;
  /** As written in the plan; undefined where nothing is. */
  readonly before: string | undefined;
  readonly after: string;
  /** The lines of the file it comes from. */
  readonly lines: readonly number[];
  readonly edits: readonly TextEdit[];
}

/** What taking in a file comes to. Rows with a fault change nothing; all others do what they say. */
export interface TakenIn {
  readonly rows: number;
  readonly changes: readonly TableChange[];
  readonly faults: readonly RowFault[];
  /** Values the plan has already as the file has them. */
  readonly alreadyThere: number;
}
