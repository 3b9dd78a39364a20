import type { Range } from 'vscode-languageserver-types';
import type { PlanParams } from './protocol';

/** PlanParams -> TablesAnswer | null without a plan */
export const tablesRequest = 'lotwright/tables';

/** TakeInParams -> TakeInAnswer | null without a plan, or where it has no such table */
export const takeInRequest = 'lotwright/takeIn';

/** Layouts of files that the plan keeps under `tables`. */
export interface TablesAnswer {
  /** What the plan is called. */
  readonly name: string;
  /** A table that does not say what it holds has no `holds`, and no file can be taken in by it. */
  readonly tables: readonly { readonly id: string; readonly holds?: string }[];
}

export interface TakeInParams extends PlanParams {
  readonly table: string;
  /** What the file is called. */
  readonly source: string;
  /** Its text. */
  readonly text: string;
}

/** What the file changes in the plan, for its text as it stands: nothing is changed by asking. */
export interface TakeInAnswer {
  readonly page: { readonly title: string; readonly markdown: string };
  /** Rows of the file. */
  readonly rows: number;
  readonly changes: number;
  /** Rows and entries that are not taken. */
  readonly faults: number;
  /** By document. */
  readonly edits: Readonly<Record<string, readonly { readonly range: Range; readonly newText: string }[]>>;
  /** Versions of open documents that the edits are for. */
  readonly versions: Readonly<Record<string, number>>;
}
