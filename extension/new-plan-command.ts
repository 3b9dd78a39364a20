import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type NewPlanAnswer, type NewPlanParams, requests } from '../src/server/protocol';

const FILE = 'plan.lotplan.yaml';

/** What the command would ask; given by other extensions and tests. */
export interface NewPlanOptions extends NewPlanParams {
  readonly folder: string;
}

/** Writes a first plan into a folder of its own, and opens it. Asks for a name, the units and the first day of harvest. */
export async function newPlan(client: BaseLanguageClient, given?: NewPlanOptions): Promise<void> {
  const base = given ? vscode.Uri.parse(given.folder) : await folderToWriteIn();
  const params = given ?? (base && (await asked()));
  if (!base || !params) return;
  const answer = await client.sendRequest<NewPlanAnswer | null>(requests.newPlan, params);
  if (!answer) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t('The plan was not made: its first day of harvest is no date.'),
    );
    return;
  }
  const folder = vscode.Uri.joinPath(base, folderName(params.name));
  const file = vscode.Uri.joinPath(folder, FILE);
  if (await exists(file)) {
    void vscode.window.showErrorMessage(
      vscode.l10n.t(
        'There is a plan in {0} already. Choose another name.',
        vscode.workspace.asRelativePath(folder),
      ),
    );
    return;
  }
  await vscode.workspace.fs.writeFile(file, new TextEncoder().encode(answer.text));
  await vscode.window.showTextDocument(file);
}

/** Copies the sample to learn from into a folder, and opens its harvest. Nothing that is there is written over. */
export async function copySample(dist: vscode.Uri, into?: string): Promise<void> {
  const base = into === undefined ? await folderToWriteIn() : vscode.Uri.parse(into);
  if (!base) return;
  const folder = vscode.Uri.joinPath(base, 'first-season');
  if (!(await exists(folder)))
    await vscode.workspace.fs.copy(vscode.Uri.joinPath(dist, 'samples', 'first-season'), folder);
  await vscode.window.showTextDocument(vscode.Uri.joinPath(folder, 'fruit.lotplan.yaml'));
}

async function asked(): Promise<NewPlanParams | undefined> {
  const name = await vscode.window.showInputBox({
    title: vscode.l10n.t('New plan (1 of 3)'),
    prompt: vscode.l10n.t('What the season is called'),
    placeHolder: vscode.l10n.t('North house, harvest 2027'),
    validateInput: (text) => (text.trim() === '' ? vscode.l10n.t('A plan needs a name.') : undefined),
  });
  if (name === undefined) return undefined;
  const units = await vscode.window.showQuickPick(
    [
      {
        label: vscode.l10n.t('Metric'),
        detail: vscode.l10n.t('metres, tonnes, degrees Celsius'),
        units: 'metric' as const,
      },
      {
        label: vscode.l10n.t('US'),
        detail: vscode.l10n.t('feet, pounds, degrees Fahrenheit'),
        units: 'us' as const,
      },
    ],
    {
      title: vscode.l10n.t('New plan (2 of 3)'),
      placeHolder: vscode.l10n.t('Units that results are shown in'),
    },
  );
  if (!units) return undefined;
  const harvest = await vscode.window.showInputBox({
    title: vscode.l10n.t('New plan (3 of 3)'),
    prompt: vscode.l10n.t('The first day of harvest'),
    value: `${new Date().getFullYear()}-09-01`,
    validateInput: (text) =>
      /^\d{4}-\d\d-\d\d$/.test(text.trim()) ? undefined : vscode.l10n.t('A day is written like 2027-09-01.'),
  });
  return harvest === undefined
    ? undefined
    : { name: name.trim(), units: units.units, harvest: harvest.trim() };
}

/** The folder that is open; of several, the one that is picked; with none, one from a dialog. */
async function folderToWriteIn(): Promise<vscode.Uri | undefined> {
  const folders = vscode.workspace.workspaceFolders ?? [];
  if (folders.length === 1) return folders[0]?.uri;
  if (folders.length > 1) return (await vscode.window.showWorkspaceFolderPick())?.uri;
  const picked = await vscode.window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    openLabel: vscode.l10n.t('Put the plan here'),
  });
  return picked?.[0];
}

/** The plan's name as a folder: letters and digits, the rest hyphens. */
function folderName(name: string): string {
  const plain = name
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '');
  return plain === '' ? 'plan' : plain;
}

async function exists(uri: vscode.Uri): Promise<boolean> {
  try {
    await vscode.workspace.fs.stat(uri);
    return true;
  } catch {
    return false;
  }
}
