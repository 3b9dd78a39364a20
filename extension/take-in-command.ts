import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type TablesAnswer,
  type TakeInAnswer,
  type TakeInParams,
  tablesRequest,
  takeInRequest,
} from '../src/server/protocol-take-in';
import { PageTexts } from './page-texts';
import { planInFront } from './plan-in-front';
import { versionedEdit } from './versioned-edit';

/** What the command would ask; given by other extensions and tests. */
export interface TakeInOptions {
  readonly table: string;
  /** Address of the file. */
  readonly file: string;
  /** Makes the changes; without it they are only shown. */
  readonly accept?: boolean;
}

/** Takes a file of comma-separated values into the plan: shown as a page first, then as edits that Undo takes back. */
export class TakeInCommand implements vscode.Disposable {
  private readonly pages = new PageTexts('lotwright-take-in');

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly shown: () => string | undefined,
  ) {}

  dispose(): void {
    this.pages.dispose();
  }

  /** How many changes were made. */
  async run(given?: TakeInOptions): Promise<number> {
    const plan = planInFront(this.client, this.shown);
    const table = given?.table ?? (await this.tableFor(plan));
    const file = table === undefined ? undefined : given ? vscode.Uri.parse(given.file) : await fileFor();
    if (table === undefined || !file) return 0;
    const text = await textOf(file);
    if (text === undefined) return 0;
    const params = { ...plan, table, source: file.path.split('/').at(-1) ?? '', text };
    const answer = await this.client.sendRequest<TakeInAnswer | null>(takeInRequest, params);
    if (!answer) {
      warn(vscode.l10n.t('The plan has no table {0}, or it does not say what it holds.', table));
      return 0;
    }
    await this.pages.show(answer.page);
    const accepted = given ? given.accept === true : await isAccepted(answer);
    return accepted ? this.accept(params, answer) : 0;
  }

  private async tableFor(plan: { readonly uri?: string }): Promise<string | undefined> {
    const answer = await this.client.sendRequest<TablesAnswer | null>(tablesRequest, plan);
    const tables = answer?.tables.filter(({ holds }) => holds !== undefined) ?? [];
    if (tables.length === 0) {
      warn(
        answer
          ? vscode.l10n.t(
              'The plan has no tables, which say how a file is laid out. Write one under "tables" first.',
            )
          : vscode.l10n.t('There is no plan to take a file into. Open one of its files first.'),
      );
      return undefined;
    }
    const items = tables.map(({ id, holds = '' }) => ({ label: id, description: holds }));
    const title = vscode.l10n.t('By which table of the plan is the file laid out?');
    return (await vscode.window.showQuickPick(items, { title }))?.label;
  }

  private async accept(params: TakeInParams, answer: TakeInAnswer): Promise<number> {
    const edit = await versionedEdit(answer);
    if (!edit || answer.changes === 0 || !(await vscode.workspace.applyEdit(edit))) return refused();
    // The page then says that all of it is there.
    const after = await this.client.sendRequest<TakeInAnswer | null>(takeInRequest, params);
    if (after) this.pages.redraw(after.page);
    return answer.changes;
  }
}

async function fileFor(): Promise<vscode.Uri | undefined> {
  const [workspace] = vscode.workspace.workspaceFolders ?? [];
  const chosen = await vscode.window.showOpenDialog({
    canSelectMany: false,
    ...(workspace && { defaultUri: workspace.uri }),
    filters: { [vscode.l10n.t('Comma-separated values')]: ['csv', 'tsv', 'txt'] },
    openLabel: vscode.l10n.t('Take In'),
    title: vscode.l10n.t('File to take into the plan'),
  });
  return chosen?.[0];
}

/** The file's text; undefined, and said, where it cannot be read or is not UTF-8. */
async function textOf(file: vscode.Uri): Promise<string | undefined> {
  try {
    const bytes = await vscode.workspace.fs.readFile(file);
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (error) {
    warn(
      error instanceof TypeError
        ? vscode.l10n.t('The file is not UTF-8, so that names would come out wrong. Save it as UTF-8.')
        : vscode.l10n.t('The file could not be read.'),
    );
    return undefined;
  }
}

async function isAccepted({ rows, changes, faults }: TakeInAnswer): Promise<boolean> {
  const counts =
    faults === 0
      ? vscode.l10n.t('{0} rows read, {1} changes.', rows, changes)
      : vscode.l10n.t('{0} rows read, {1} changes, {2} rows or entries not taken.', rows, changes, faults);
  if (changes === 0) {
    void vscode.window.showInformationMessage(counts);
    return false;
  }
  const take = vscode.l10n.t('Take In');
  return (await vscode.window.showInformationMessage(counts, take)) === take;
}

function refused(): number {
  warn(vscode.l10n.t('The plan was changed meanwhile. Nothing was taken in; ask again.'));
  return 0;
}

function warn(text: string): void {
  void vscode.window.showWarningMessage(text);
}
