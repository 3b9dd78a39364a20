import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { LANGUAGE } from './client-options';

/** The plan of the document in front, else the one that is shown already; nothing where there is neither. */
export function planInFront(
  client: BaseLanguageClient,
  shown: () => string | undefined,
): { readonly uri?: string } {
  const document = vscode.window.activeTextEditor?.document;
  if (document?.languageId === LANGUAGE) return { uri: client.code2ProtocolConverter.asUri(document.uri) };
  const uri = shown();
  return uri === undefined ? {} : { uri };
}
