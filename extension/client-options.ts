import * as vscode from 'vscode';
import type { LanguageClientOptions } from 'vscode-languageclient';
import type { InitializationOptions } from '../src/server/protocol';
import { foldersOnDisk } from './folders-on-disk';
import { inEditorsLanguage } from './language-middleware';

export const LANGUAGE = 'lotplan';

/**
 * What the language client is told; `seesDisk` where the server sees the disk of the `file:` addresses. Documents of the
 * source control's old versions are no part of the plan.
 */
export function clientOptions(
  dist: vscode.Uri,
  log: vscode.LogOutputChannel,
  seesDisk: boolean,
): LanguageClientOptions {
  const schemes = new Set(['file', 'untitled', 'vscode-remote', 'vscode-vfs']);
  for (const { uri } of vscode.workspace.workspaceFolders ?? []) schemes.add(uri.scheme);
  // A function: a server that is started once more is told what holds then.
  const initializationOptions = (): InitializationOptions => ({
    pagesUri: vscode.Uri.joinPath(dist, 'pages').toString(),
    clientReadsFiles: true,
    clientCommands: true,
    ...(seesDisk && { onDisk: foldersOnDisk(), settings: vscode.workspace.getConfiguration('lotwright') }),
  });
  return {
    documentSelector: [...schemes].map((scheme) => ({ scheme, language: LANGUAGE })),
    outputChannel: log,
    initializationOptions,
    synchronize: { configurationSection: 'lotwright' },
    middleware: inEditorsLanguage,
  };
}
