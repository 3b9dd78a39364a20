import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type PapersAnswer, type PapersParams, papersRequest } from '../src/server/protocol-papers';
import { LANGUAGE } from './client-options';

type Reader = PapersParams['reader'];
type Form = PapersParams['form'];

/** What the command would ask; given by other extensions and tests. */
export interface ExportOptions {
  readonly reader: Reader;
  readonly form: Form;
  /** Folder that the files go to. */
  readonly to: string;
}

const readers = (): readonly (vscode.QuickPickItem & { readonly reader: Reader })[] => [
  {
    reader: 'everyone',
    label: vscode.l10n.t('Everyone'),
    description: vscode.l10n.t('the whole schedule, and each room'),
  },
  { reader: 'packhouse', label: vscode.l10n.t('Packhouse'), description: vscode.l10n.t('what arrives when') },
  {
    reader: 'sales',
    label: vscode.l10n.t('Sales'),
    description: vscode.l10n.t('cartons by week and market, short weeks'),
  },
  {
    reader: 'cold-store',
    label: vscode.l10n.t('Cold-store crew'),
    description: vscode.l10n.t('seal, purge, scrub, sample, ventilate, open'),
  },
  { reader: 'lab', label: vscode.l10n.t('Lab'), description: vscode.l10n.t('what to sample when') },
  {
    reader: 'growers',
    label: vscode.l10n.t('Growers'),
    description: vscode.l10n.t('a part for each, with their lots only'),
  },
];

const forms = (): readonly (vscode.QuickPickItem & { readonly form: Form })[] => [
  { form: 'html', label: vscode.l10n.t('Pages to print'), description: 'HTML' },
  { form: 'workbook', label: vscode.l10n.t('Workbook'), description: vscode.l10n.t('a sheet a table') },
  {
    form: 'calendar',
    label: vscode.l10n.t('Calendar'),
    description: vscode.l10n.t('iCalendar, to subscribe to'),
  },
  { form: 'csv', label: vscode.l10n.t('Tables'), description: vscode.l10n.t('CSV, a file each') },
  { form: 'markdown', label: vscode.l10n.t('Text'), description: vscode.l10n.t('Markdown') },
  { form: 'json', label: vscode.l10n.t('Data'), description: vscode.l10n.t('JSON by a published schema') },
];

/** Writes the release schedule for its readers, as `lotwright papers` does; on any file system the editor has. */
export class ExportCommand {
  constructor(
    private readonly client: BaseLanguageClient,
    private readonly shown: () => string | undefined,
  ) {}

  async run(given?: ExportOptions): Promise<void> {
    const reader = given?.reader ?? (await pick(readers(), vscode.l10n.t('Who reads it?')))?.reader;
    const form = reader && (given?.form ?? (await pick(forms(), vscode.l10n.t('In which form?')))?.form);
    if (!reader || !form) return;
    const params = { ...this.plan(), reader, form };
    const made = await this.ask(params);
    if (!made || made.files.length === 0) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t('There is no plan to tell of. Open one of its files first.'),
      );
      return;
    }
    const folder = given ? vscode.Uri.parse(given.to) : await folderFor();
    if (!folder) return;
    const standing = await textsOf(folder, made);
    if (!given && Object.keys(standing).length > 0 && !(await mayWriteOver(Object.keys(standing)))) return;
    const issued = form === 'calendar' ? await this.ask({ ...params, previous: standing }) : made;
    for (const { name, content } of (issued ?? made).files)
      await vscode.workspace.fs.writeFile(vscode.Uri.joinPath(folder, name), bytesOf(content));
    if (!given) await tellWritten(folder, issued ?? made);
  }

  private ask(params: PapersParams): Promise<PapersAnswer | null> {
    return this.client.sendRequest<PapersAnswer | null>(papersRequest, params);
  }

  /** The plan in front, else the one the timeline shows. */
  private plan(): Pick<PapersParams, 'uri'> {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId === LANGUAGE)
      return { uri: this.client.code2ProtocolConverter.asUri(document.uri) };
    const uri = this.shown();
    return uri === undefined ? {} : { uri };
  }
}

async function pick<T extends vscode.QuickPickItem>(
  items: readonly T[],
  title: string,
): Promise<T | undefined> {
  return vscode.window.showQuickPick(items, { title });
}

async function folderFor(): Promise<vscode.Uri | undefined> {
  const [workspace] = vscode.workspace.workspaceFolders ?? [];
  const chosen = await vscode.window.showOpenDialog({
    canSelectFiles: false,
    canSelectFolders: true,
    ...(workspace && { defaultUri: workspace.uri }),
    openLabel: vscode.l10n.t('Write here'),
    title: vscode.l10n.t('Folder for the schedule'),
  });
  return chosen?.[0];
}

/** Texts of the files that stand there already, by name. */
async function textsOf(folder: vscode.Uri, { files }: PapersAnswer): Promise<Record<string, string>> {
  const found = await Promise.all(
    files.map(async ({ name }) => {
      try {
        const bytes = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(folder, name));
        return [[name, new TextDecoder().decode(bytes)] as const];
      } catch {
        return [];
      }
    }),
  );
  return Object.fromEntries(found.flat());
}

async function mayWriteOver(names: readonly string[]): Promise<boolean> {
  const over = vscode.l10n.t('Write Over');
  const question =
    names.length === 1
      ? vscode.l10n.t('A file of this name stands there already.')
      : vscode.l10n.t('{0} files of these names stand there already.', names.length);
  const answer = await vscode.window.showWarningMessage(
    question,
    { modal: true, detail: names.join('\n') },
    over,
  );
  return answer === over;
}

async function tellWritten(folder: vscode.Uri, { files }: PapersAnswer): Promise<void> {
  const [first] = files;
  if (!first) return;
  const open = vscode.l10n.t('Open');
  const told =
    files.length > 1
      ? vscode.l10n.t('Written: {0} and {1} more.', first.name, files.length - 1)
      : vscode.l10n.t('Written: {0}.', first.name);
  const answer = await vscode.window.showInformationMessage(told, open);
  if (answer === open)
    await vscode.commands.executeCommand('vscode.open', vscode.Uri.joinPath(folder, first.name));
}

function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
