import * as vscode from 'vscode';
import { translator } from './translator';

let translated: ((text: string) => string) | undefined;

/** A text of the server in the language of the editor. The bundle is there before the extension is started. */
export function translate(text: string): string {
  translated ??= translator(vscode.l10n.bundle, vscode.env.language);
  return translated(text);
}
