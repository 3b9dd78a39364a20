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

const READERS: readonly (vscode.QuickPickItem & { readonly reader: Reader })[] = [
  { reader: 'everyone', label: 'Everyone', description: 'the whole schedule, and each room' },
  { reader: 'packhouse', label: 'Packhouse', description: 'what arrives when' },
  { reader: 'sales', label: 'Sales', description: 'cartons by week and market, short weeks' },
  {
    reader: 'cold-store',
    label: 'Cold-store crew',
    description: 'seal, purge, scrub, sample, ventilate, open',
  },
  { reader: 'lab', label: 'Lab', description: 'what to sample when' },
  { reader: 'growers', label: 'Growers', description: 'a part for each, with their lots only' },
];

const FORMS: readonly (vscode.QuickPickItem & { readonly form: Form })[] = [
  { form: 'html', label: 'Pages to print', description: 'HTML' },
  { form: 'workbook', label: 'Workbook', description: 'a sheet a table' },
  { form: 'calendar', label: 'Calendar', description: 'iCalendar, to subscribe to' },
  { form: 'csv', label: 'Tables', description: 'CSV, a file each' },
  { form: 'markdown', label: 'Text', description: 'Markdown' },
  { form: 'json', label: 'Data', description: 'JSON by a published schema' },
];

/** Writes the release schedule for its readers, as `lotwright papers` does; on any file system the editor has. */
export class ExportCommand {
  constructor(
    private readonly client: BaseLanguageClient,
    private readonly shown: () => string | undefined,
  ) {}

  async run(given?: ExportOptions): Promise<void> {
    const reader = given?.reader ?? (await pick(READERS, 'Who reads it?'))?.reader;
    const form = reader && (given?.form ?? (await pick(FORMS, 'In which form?'))?.form);
    if (!reader || !form) return;
    const params = { ...this.plan(), reader, form };
    const made = await this.ask(params);
    if (!made || made.files.length === 0) {
      void vscode.window.showInformationMessage('There is no plan to tell of. Open one of its files first.');
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
    openLabel: 'Write here',
    title: 'Folder for the schedule',
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
  const over = 'Write Over';
  const question = `${names.length === 1 ? 'A file of this name stands' : `${names.length} files of these names stand`} there already.`;
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
  const open = 'Open';
  const told = `Written: ${first.name}${files.length > 1 ? ` and ${files.length - 1} more` : ''}.`;
  const answer = await vscode.window.showInformationMessage(told, open);
  if (answer === open)
    await vscode.commands.executeCommand('vscode.open', vscode.Uri.joinPath(folder, first.name));
}

function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
