import * as vscode from 'vscode';
import { filesOfJournal, fromJournal, JOURNAL, type Kept, undoingOf } from '../src/plan/broken-write';

/** What undoing a broken-off write came to, by address. */
export interface Undone {
  readonly putBack: readonly string[];
  /** Files that somebody has changed since, or that are not saved: then nothing was touched. */
  readonly changedSince: readonly string[];
}

/**
 * Looks for what a write of the command line left that ended half way, and offers to put the plan back as it was before, as
 * the command line does when it next reads the plan.
 */
export async function offerToUndoBrokenWrites(log: vscode.LogOutputChannel): Promise<void> {
  for (const journal of await journals()) {
    const undo = vscode.l10n.t('Undo the Write');
    const chosen = await vscode.window.showWarningMessage(
      vscode.l10n.t(
        'A write of the plan in {0} ended half way: some of its files are as they were before, some as they were to be. Its journal has the texts from before.',
        vscode.workspace.asRelativePath(folderOf(journal)),
      ),
      undo,
    );
    if (chosen !== undo) continue;
    try {
      tell(await undoBrokenWrite(journal));
    } catch (error) {
      log.error(`A write that ended half way could not be undone: ${String(error)}`);
      void vscode.window.showErrorMessage(
        vscode.l10n.t(
          'It could not be undone. The texts from before stand in {0}.',
          vscode.workspace.asRelativePath(journal),
        ),
      );
    }
  }
}

/** Undoes them all without asking: for other extensions and tests. */
export async function undoBrokenWrites(): Promise<readonly Undone[]> {
  const undone: Undone[] = [];
  for (const journal of await journals()) undone.push(await undoBrokenWrite(journal));
  return undone;
}

function journals(): Thenable<vscode.Uri[]> {
  return vscode.workspace.findFiles(`**/${JOURNAL}`, '**/node_modules/**');
}

interface Found {
  readonly kept: Kept;
  readonly uri: vscode.Uri;
}

/** Throws where a file cannot be read or written; what has been put back by then is so, and the journal stays. */
async function undoBrokenWrite(journal: vscode.Uri): Promise<Undone> {
  const files = filesOfJournal(await textOf(journal));
  if (!files) throw new Error(`${journal} is damaged`);
  const found = files.map((kept): Found => {
    const uri = vscode.Uri.joinPath(folderOf(journal), fromJournal(files, kept.file));
    // A journal is a file like any other: it puts back plan files of the workspace and nothing else.
    if (!uri.path.endsWith('.lotplan.yaml') || !vscode.workspace.getWorkspaceFolder(uri))
      throw new Error(`${uri} is no plan file of the workspace`);
    return { kept, uri };
  });
  const now = new Map<string, string | undefined>();
  for (const { kept, uri } of found) now.set(kept.file, isUnsaved(uri) ? undefined : await textOf(uri));
  const { written, changedSince } = undoingOf(files, now);
  const addresses = (of: (file: string) => boolean) =>
    found.flatMap(({ kept, uri }) => (of(kept.file) ? [uri.toString()] : []));
  if (changedSince.length > 0)
    return { putBack: [], changedSince: addresses((file) => changedSince.includes(file)) };
  for (const { kept, uri } of found) {
    const beside = uri.with({ path: `${uri.path}.new` });
    if (written.includes(kept)) {
      // Whole or not at all, as the command line does it.
      await vscode.workspace.fs.writeFile(beside, new TextEncoder().encode(kept.before));
      await vscode.workspace.fs.rename(beside, uri, { overwrite: true });
    } else await vscode.workspace.fs.delete(beside).then(undefined, () => {});
  }
  await vscode.workspace.fs.delete(journal);
  return { putBack: addresses((file) => written.some((kept) => kept.file === file)), changedSince: [] };
}

function isUnsaved(uri: vscode.Uri): boolean {
  return vscode.workspace.textDocuments.some(
    (document) => document.isDirty && document.uri.toString() === uri.toString(),
  );
}

/** With its byte order mark, where it has one. */
async function textOf(uri: vscode.Uri): Promise<string> {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(await vscode.workspace.fs.readFile(uri));
}

function folderOf(uri: vscode.Uri): vscode.Uri {
  return vscode.Uri.joinPath(uri, '..');
}

function tell({ putBack, changedSince }: Undone): void {
  const named = (addresses: readonly string[]) =>
    addresses.map((address) => vscode.workspace.asRelativePath(vscode.Uri.parse(address))).join(', ');
  if (changedSince.length > 0)
    void vscode.window.showWarningMessage(
      vscode.l10n.t(
        'Nothing was touched: {0} was changed since, or is not saved. Put the files right, then remove {1}.',
        named(changedSince),
        JOURNAL,
      ),
    );
  else
    void vscode.window.showInformationMessage(
      putBack.length === 0
        ? vscode.l10n.t('The plan is as it was before that write.')
        : vscode.l10n.t('The plan is as it was before that write: put back {0}.', named(putBack)),
    );
}
