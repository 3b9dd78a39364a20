import * as vscode from 'vscode';

const PREVIEW_BESIDE = 'markdown.showPreviewToSide';
const PREVIEW = 'markdown.showPreview';

/**
 * Shows Markdown as a page: rendered where the editor has its Markdown preview, else as text beside the plan, where
 * the plan keeps the focus.
 */
export async function showMarkdown(uri: vscode.Uri, beside: boolean): Promise<void> {
  const commands = new Set(await vscode.commands.getCommands(true));
  const preview = beside ? PREVIEW_BESIDE : PREVIEW;
  if (commands.has(preview)) {
    await vscode.commands.executeCommand(preview, uri);
    return;
  }
  const document = await vscode.workspace.openTextDocument(uri);
  await vscode.window.showTextDocument(document, {
    preview: true,
    ...(beside ? { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true } : {}),
  });
}
