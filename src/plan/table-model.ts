import type { Entry } from './entry';
import type { Given } from './span';

/** What a table's rows are about. */
export type TableKind = 'receipts' | 'maturity' | 'demand' | 'progress' | 'samples' | 'packed' | 'sales';

/** How a file of comma-separated values is laid out. */
export interface FileLayout extends Entry {
  /** Field of the table, and the heading of its column in the file. */
  readonly columns: ReadonlyMap<string, string>;
  readonly separator: 'comma' | 'semicolon' | 'tab';
  readonly decimal: 'point' | 'comma';
  readonly dates: 'year-month-day' | 'day-month-year' | 'month-day-year';
  /** Field, and the unit that its bare numbers are in. */
  readonly units: ReadonlyMap<string, string>;
  /** Field, and what its words in the file are called in the plan. */
  readonly names: ReadonlyMap<string, ReadonlyMap<string, string>>;
}

/** How a file that is taken in is laid out. */
export interface TableLayout extends FileLayout {
  readonly holds: TableKind | undefined;
}

/** A file of readings of rooms that stays beside the plan. */
export interface ReadingsLayout extends FileLayout {
  /** From the folder of the plan file that names it, with forward slashes. */
  readonly file: Given<string> | undefined;
}
