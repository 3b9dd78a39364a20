import type * as vscode from 'vscode';
import type { Middleware } from 'vscode-languageclient';
import { translate, translateFinding, withCautions } from './translate';

/**
 * What the server shows in the text, in the language of the editor: figures above entries, hints at line ends, titles of
 * actions, and findings as far as their sentences are in the bundle. Nothing else of an answer is touched.
 */
export const inEditorsLanguage: Middleware = {
  provideHover: async (document, position, token, next) => hoverIn(await next(document, position, token)),
  provideCodeLenses: async (document, token, next) => (await next(document, token))?.map(lensIn),
  provideInlayHints: async (document, range, token, next) =>
    (await next(document, range, token))?.map(hintIn),
  provideCodeActions: async (document, range, context, token, next) =>
    (await next(document, range, context, token))?.map(actionIn),
  handleDiagnostics: (uri, diagnostics, next) => {
    for (const diagnostic of diagnostics)
      diagnostic.message = translateFinding(codeOf(diagnostic), diagnostic.message);
    next(uri, diagnostics);
  },
};

/** Hovers are English but for their caution. */
function hoverIn(hover: vscode.Hover | null | undefined): vscode.Hover | null | undefined {
  for (const content of hover?.contents ?? [])
    if (typeof content !== 'string') content.value = withCautions(content.value);
  return hover;
}

function codeOf({ code }: vscode.Diagnostic): string {
  return String(typeof code === 'object' ? code.value : (code ?? ''));
}

function lensIn(lens: vscode.CodeLens): vscode.CodeLens {
  const { command } = lens;
  if (!command) return lens;
  lens.command = {
    ...command,
    title: translate(command.title),
    ...(command.tooltip !== undefined && { tooltip: translate(command.tooltip) }),
  };
  return lens;
}

/** Figure spaces at the end keep the text of neighbouring lines still: they stay. */
function hintIn(hint: vscode.InlayHint): vscode.InlayHint {
  if (typeof hint.label !== 'string') return hint;
  const words = hint.label.replace(/\u2007+$/, '');
  const padding = hint.label.slice(words.length);
  hint.label = `${translate(words)}${padding}`;
  return hint;
}

function actionIn(action: vscode.Command | vscode.CodeAction): vscode.Command | vscode.CodeAction {
  action.title = translate(action.title);
  return action;
}
