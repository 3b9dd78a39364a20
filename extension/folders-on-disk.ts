import * as vscode from 'vscode';
import type { FolderOnDisk } from '../src/server/protocol';

/** The workspace's folders that lie on this machine's disk. */
export function foldersOnDisk(): FolderOnDisk[] {
  const folders = (vscode.workspace.workspaceFolders ?? []).filter(({ uri }) => uri.scheme === 'file');
  return folders.map(({ uri }) => ({ folder: uri.toString(), exclude: excludedIn(uri) }));
}

/** The setting `files.exclude` as it is for a folder. */
export function excludedIn(folder: vscode.Uri): Readonly<Record<string, unknown>> {
  return vscode.workspace.getConfiguration('files', folder).get<Record<string, unknown>>('exclude') ?? {};
}
