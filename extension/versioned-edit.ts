import * as vscode from 'vscode';
import type { Range } from 'vscode-languageclient';

/** Edits of plan files, by address, and the versions of the documents that they are for. */
export interface VersionedEdits {
  readonly edits: Readonly<Record<string, readonly { readonly range: Range; readonly newText: string }[]>>;
  readonly versions: Readonly<Record<string, number>>;
}

/**
 * The server's edits as one of the editor's. They are made to the very text they were made for, or not at all:
 * undefined where a document is no longer the one that they are for.
 */
export async function versionedEdit({
  edits,
  versions,
}: VersionedEdits): Promise<vscode.WorkspaceEdit | undefined> {
  const edit = new vscode.WorkspaceEdit();
  for (const [address, list] of Object.entries(edits)) {
    const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(address));
    const version = versions[address];
    if (version !== undefined && document.version !== version) return undefined;
    edit.set(
      document.uri,
      list.map(({ range: { start, end }, newText }) =>
        vscode.TextEdit.replace(
          new vscode.Range(start.line, start.character, end.line, end.character),
          newText,
        ),
      ),
    );
  }
  return edit;
}
