import * as vscode from 'vscode';
import type { Middleware } from 'vscode-languageclient';
import { partsIn } from './hover-translator';
import { translate, translateDetail, translateFinding, translateHover, translateTold } from './translate';

/**
 * What the server shows in the text, in the language of the editor: hovers, figures above entries, hints at line ends,
 * what proposals are, help with quantities, titles of actions, and findings with what belongs to them. Nothing else of an
 * answer is touched.
 */
export const inEditorsLanguage: Middleware = {
  provideHover: async (document, position, token, next) => hoverIn(await next(document, position, token)),
  provideCompletionItem: async (document, position, context, token, next) => {
    const found = await next(document, position, context, token);
    for (const item of (Array.isArray(found) ? found : found?.items) ?? []) proposalIn(item);
    return found;
  },
  provideSignatureHelp: async (document, position, context, token, next) =>
    helpIn(await next(document, position, context, token)),
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

function hoverIn(hover: vscode.Hover | null | undefined): vscode.Hover | null | undefined {
  for (const content of hover?.contents ?? [])
    if (typeof content !== 'string') content.value = translateHover(content.value);
  return hover;
}

/**
 * What a proposal is, behind it; what it writes and how it is found stay, since they are of the plan language. So does its
 * name, but for whole entries with places to be filled, which are no words of the plan.
 */
function proposalIn(item: vscode.CompletionItem): void {
  if (item.insertText instanceof vscode.SnippetString && typeof item.label === 'string')
    item.label = translateTold(item.label);
  if (item.detail) item.detail = translateDetail(item.detail);
  const told = item.documentation;
  if (typeof told === 'string') item.documentation = translateTold(told);
  else if (told) told.value = translateTold(told.value);
}

/** How a quantity is put together: its number is named in the language, its units are as the plan has them. */
function helpIn(help: vscode.SignatureHelp | null | undefined): vscode.SignatureHelp | null | undefined {
  for (const signature of help?.signatures ?? []) {
    const told = signature.documentation;
    if (typeof told === 'string') signature.documentation = translateTold(told);
    const parts = signature.parameters.flatMap(({ label }) => (typeof label === 'string' ? [] : [label]));
    const { label, places } = partsIn(signature.label, parts, (text, at) =>
      at === 0 ? translateTold(text) : text,
    );
    signature.label = label;
    signature.parameters.forEach((parameter, at) => {
      parameter.label = places[at] ?? parameter.label;
    });
  }
  return help;
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
  if (typeof hint.tooltip === 'string') hint.tooltip = translate(hint.tooltip);
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
