import type { Entry } from './entry';

/** What a table's rows are about. */
export type TableKind = 'receipts' | 'maturity' | 'demand';

/** How a file that is taken in is laid out. */
export interface TableLayout extends Entry {
  readonly holds: TableKind | undefined;
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
