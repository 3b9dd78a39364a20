import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type AllowAnswer, type AllowParams, requests } from '../src/server/protocol';
import { showMarkdown } from './markdown-page';

const ENDING = '.md';

/** Opens the page of a finding's code; without a code, of the finding at the caret, or of one that is picked. */
export async function showFindingPage(dist: vscode.Uri, code: unknown): Promise<void> {
  const pages = vscode.Uri.joinPath(dist, 'pages');
  const wanted = typeof code === 'string' ? code : (codeAtCaret() ?? (await pickCode(pages)));
  if (wanted === undefined || !/^[a-z][a-z0-9-]*$/.test(wanted)) return;
  await showMarkdown(vscode.Uri.joinPath(pages, `${wanted}${ENDING}`), false);
}

function codeAtCaret(): string | undefined {
  const editor = vscode.window.activeTextEditor;
  if (!editor) return undefined;
  const found = vscode.languages
    .getDiagnostics(editor.document.uri)
    .find(({ source, range }) => source === 'Lotwright' && range.contains(editor.selection.active));
  const code = found?.code;
  return typeof code === 'object' ? String(code.value) : code === undefined ? undefined : String(code);
}

async function pickCode(pages: vscode.Uri): Promise<string | undefined> {
  const files = await vscode.workspace.fs.readDirectory(pages);
  const codes = files.map(([name]) => name.slice(0, -ENDING.length)).sort();
  return vscode.window.showQuickPick(codes, { placeHolder: vscode.l10n.t('Which finding?') });
}

/** Asks for a reason and writes the comment that allows a finding at its place. */
export async function allowFinding(
  client: BaseLanguageClient,
  finding: Omit<AllowParams, 'reason'>,
): Promise<void> {
  const reason = await vscode.window.showInputBox({
    title: vscode.l10n.t('Allow {0} here', finding.code),
    prompt: vscode.l10n.t(
      'Why is it right as it is? The reason stands in the plan, for whoever reads it next.',
    ),
    validateInput: (text) => (text.trim() === '' ? vscode.l10n.t('A reason is needed.') : undefined),
  });
  if (reason === undefined) return;
  const params: AllowParams = { ...finding, reason };
  const answer = await client.sendRequest<AllowAnswer | null>(requests.allow, params);
  if (!answer) return;
  const edit = new vscode.WorkspaceEdit();
  const { line, character } = answer.position;
  edit.insert(vscode.Uri.parse(finding.uri), new vscode.Position(line, character), answer.newText);
  await vscode.workspace.applyEdit(edit);
}
