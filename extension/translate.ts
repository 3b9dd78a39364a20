import * as vscode from 'vscode';
import { findingTranslator } from './finding-translator';
import { cautionTranslator, translator } from './translator';

let translated: ((text: string) => string) | undefined;

/** A text of the server in the language of the editor. The bundle is there before the extension is started. */
export function translate(text: string): string {
  translated ??= translator(vscode.l10n.bundle, vscode.env.language);
  return translated(text);
}

let finding: ((code: string, message: string) => string) | undefined;

/** The message of a finding, as far as the bundle has a template for its code; its caution in any case. */
export function translateFinding(code: string, message: string): string {
  finding ??= findingTranslator(vscode.l10n.bundle, vscode.env.language);
  return finding(code, message);
}

let cautions: ((text: string) => string) | undefined;

/** A page or a hover of the server, English but for its cautions. */
export function withCautions(text: string): string {
  cautions ??= cautionTranslator(vscode.l10n.bundle);
  return cautions(text);
}
