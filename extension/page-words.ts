import * as vscode from 'vscode';
import type { PanelPageOptions } from './panel/page';
import { english } from './panel/words-english';

/** The page's own texts in the editor's language. In English, and where nothing is translated, it has them already. */
export function pageWords(): Pick<PanelPageOptions, 'language' | 'words'> {
  const { bundle } = vscode.l10n;
  if (!bundle) return {};
  const words: Record<string, string> = {};
  for (const [key, text] of Object.entries(english)) {
    const translation = bundle[text];
    if (translation !== undefined) words[key] = translation;
  }
  return { language: vscode.env.language, words };
}
