import type * as vscode from 'vscode';
import type { Middleware } from 'vscode-languageclient';
import { translate, translateFinding, withCautions } from './translate';

/**
 * What the server shows in the text, in the language of the editor: figures above entries, hints at line ends, what
 * proposals are, titles of actions, and findings with what belongs to them. Nothing else of an answer is touched.
 */
export const inEditorsLanguage: Middleware = {
  provideHover: async (document, position, token, next) => hoverIn(await next(document, position, token)),
  provideCompletionItem: async (document, position, context, token, next) => {
    const found = await next(document, position, context, token);
    for (const item of (Array.isArray(found) ? found : found?.items) ?? []) proposalIn(item);
    return found;
  },
  provideCodeLenses: async (document, token, next) => (await next(document, token))?.map(lensIn),
  provideInlayHints: async (document, range, token, next) =>
    (await next(document, range, token))?.map(hintIn),
  provideCodeActions: async (document, range, context, token, next) =>
    (await next(document, range, context, token))?.map(actionIn),
  handleDiagnostics: (uri, diagnostics, next) => {
    next(uri, diagnostics.map(diagnosticIn));
  },
};

/** A finding and what it says of other places. */
function diagnosticIn(diagnostic: vscode.Diagnostic): vscode.Diagnostic {
  const code = codeOf(diagnostic);
  diagnostic.message = translateFinding(code, diagnostic.message);
  for (const place of diagnostic.relatedInformation ?? [])
    place.message = translateFinding(code, place.message);
  return diagnostic;
}

/** Hovers are English but for their caution. */
function hoverIn(hover: vscode.Hover | null | undefined): vscode.Hover | null | undefined {
  for (const content of hover?.contents ?? [])
    if (typeof content !== 'string') content.value = withCautions(content.value);
  return hover;
}

/** What a proposal is, behind it; what it writes and how it is found stay, since they are of the plan language. */
function proposalIn(item: vscode.CompletionItem): void {
  if (item.detail) item.detail = translate(item.detail);
  const told = item.documentation;
  if (typeof told === 'string') item.documentation = withCautions(told);
  else if (told) told.value = withCautions(told.value);
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

/** The title of a fix is a text of its finding, unless it is one that many have. */
function actionIn(action: vscode.Command | vscode.CodeAction): vscode.Command | vscode.CodeAction {
  const findings = 'diagnostics' in action ? (action.diagnostics ?? []) : [];
  const english = action.title;
  const titles = findings.map((finding) => translateFinding(codeOf(finding), english));
  action.title = titles.find((title) => title !== english) ?? translate(english);
  findings.forEach(diagnosticIn);
  return action;
}
