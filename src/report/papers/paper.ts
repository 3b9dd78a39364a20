import type { Day, Week } from '../../plan/dates';
import type { RoomAccount, SeasonAccount, Task } from './account';

export const READERS = ['packhouse', 'sales', 'cold-store', 'lab', 'growers', 'everyone'] as const;
export type Reader = (typeof READERS)[number];

/** A cell's type follows its column's: text, number, day, week or several names; null where the plan does not tell. */
export type PaperCell = string | number | readonly string[] | null;

export interface PaperColumn {
  /** Stable, for programs: `cartons-short`. */
  readonly key: string;
  readonly title: string;
  readonly kind: 'text' | 'number' | 'day' | 'week' | 'names';
  /** Label of its unit; absent for counts and texts. */
  readonly unit?: string;
  /** Of a number; none where left out. */
  readonly decimals?: number;
}

export interface PaperTable {
  /** Stable, for file names: `weeks`. */
  readonly key: string;
  readonly title: string;
  readonly columns: readonly PaperColumn[];
  readonly rows: readonly (readonly PaperCell[])[];
  /** It speaks of opening, ventilating or reaching into a room: the caution goes with it. */
  readonly opens: boolean;
}

/** What one reader gets. */
export interface Paper {
  readonly reader: Reader;
  /** Of a grower's part; empty where the plan names none. */
  readonly grower?: string;
  readonly title: string;
  readonly account: SeasonAccount;
  /** The first is the season week by week. */
  readonly tables: readonly PaperTable[];
  /** What the reader's calendar holds. */
  readonly tasks: readonly CalendarTask[];
  /** Rooms that get a page each. */
  readonly rooms: readonly RoomAccount[];
  readonly cautions: readonly string[];
}

/** What a paper says of where opening weeks come from: with counts, but for a grower, who is told of no other's rooms. */
export function whereWeeksComeFrom({ account, grower }: Paper): string[] {
  return (grower === undefined ? [account.schedule] : [account.basis]).filter((line) => line !== '');
}

/** What stands before the tables: where opening weeks come from and, with cartons told, which of them are packed already. */
export function beforeTables(paper: Paper): string[] {
  const { packedBefore } = paper.account;
  const tellsCartons = paper.tables.some(({ columns }) => columns.some(({ key }) => key === 'cartons-sold'));
  return [
    ...whereWeeksComeFrom(paper),
    ...(tellsCartons && paper.grower === undefined && packedBefore ? [packedBefore] : []),
  ];
}

export type CalendarTask = Omit<Task, 'kind'> & { readonly kind: Task['kind'] | 'pack' | 'sell' | 'short' };

/** A column with what it tells of a row. */
export interface Told<R> extends PaperColumn {
  readonly of: (row: R) => PaperCell | undefined;
}

/** A table from rows and what is told of each. */
export function paperTable<R>(
  key: string,
  title: string,
  rows: readonly R[],
  told: readonly Told<R>[],
  opens: boolean,
): PaperTable {
  return {
    key,
    title,
    columns: told.map(({ of, ...column }) => column),
    rows: rows.map((row) => told.map(({ of }) => of(row) ?? null)),
    opens,
  };
}

export function text<R>(key: string, title: string, of: (row: R) => string | undefined): Told<R> {
  return { key, title, kind: 'text', of };
}

export function names<R>(key: string, title: string, of: (row: R) => readonly string[] | undefined): Told<R> {
  return { key, title, kind: 'names', of };
}

export function number<R>(
  key: string,
  title: string,
  of: (row: R) => number | undefined,
  shown: { readonly unit?: string; readonly decimals?: number } = {},
): Told<R> {
  return { key, title, kind: 'number', ...shown, of };
}

export function day<R>(key: string, title: string, of: (row: R) => Day | undefined): Told<R> {
  return { key, title, kind: 'day', of };
}

export function week<R>(key: string, title: string, of: (row: R) => Week | undefined): Told<R> {
  return { key, title, kind: 'week', of };
}
