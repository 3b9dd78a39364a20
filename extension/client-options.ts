import * as vscode from 'vscode';
import type { LanguageClientOptions } from 'vscode-languageclient';
import type { InitializationOptions } from '../src/server/protocol';
import { inEditorsLanguage } from './language-middleware';

export const LANGUAGE = 'lotplan';

/** What the language client is told. Documents of the source control's old versions are no part of the plan. */
export function clientOptions(dist: vscode.Uri, log: vscode.LogOutputChannel): LanguageClientOptions {
  const schemes = new Set(['file', 'untitled', 'vscode-remote', 'vscode-vfs']);
  for (const { uri } of vscode.workspace.workspaceFolders ?? []) schemes.add(uri.scheme);
  const initializationOptions: InitializationOptions = {
    pagesUri: vscode.Uri.joinPath(dist, 'pages').toString(),
    clientReadsFiles: true,
    clientCommands: true,
  };
  return {
    documentSelector: [...schemes].map((scheme) => ({ scheme, language: LANGUAGE })),
    outputChannel: log,
    initializationOptions,
    synchronize: { configurationSection: 'lotwright' },
    middleware: inEditorsLanguage,
  };
}
