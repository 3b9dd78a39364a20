import * as vscode from 'vscode';
import { findingTranslator } from './finding-translator';
import { type HoverTranslator, hoverTranslator } from './hover-translator';
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

let hovers: HoverTranslator | undefined;

function hoversTranslated(): HoverTranslator {
  hovers ??= hoverTranslator(vscode.l10n.bundle, vscode.env.language);
  return hovers;
}

/** A hover's Markdown, line by line; a caution in any case. */
export function translateHover(markdown: string): string {
  return hoversTranslated().markdown(markdown);
}

/** What is said of a proposal or of a quantity, in plain text. */
export function translateTold(text: string): string {
  return hoversTranslated().plain(text);
}

/** What stands behind a proposal: what hovers have a word for, or as any other text of the server. */
export function translateDetail(text: string): string {
  const told = hoversTranslated().plain(text);
  return told === text ? translate(text) : told;
}

let cautions: ((text: string) => string) | undefined;

/** A page of the server, English but for its cautions. */
export function withCautions(text: string): string {
  cautions ??= cautionTranslator(vscode.l10n.bundle);
  return cautions(text);
}
