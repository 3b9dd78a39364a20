import * as vscode from 'vscode';

const PREVIEW_BESIDE = 'markdown.showPreviewToSide';
const PREVIEW = 'markdown.showPreview';

/**
 * Shows Markdown as a page: rendered where the editor has its Markdown preview, else as text beside the plan, where
 * the plan keeps the focus.
 */
export async function showMarkdown(uri: vscode.Uri, beside: boolean): Promise<void> {
  try {
    // Asking for the command starts the preview; a list of commands would not have it before.
    await vscode.commands.executeCommand(beside ? PREVIEW_BESIDE : PREVIEW, uri);
    return;
  } catch {
    // This editor has no Markdown preview.
  }
  const document = await vscode.workspace.openTextDocument(uri);
  await vscode.window.showTextDocument(document, {
    preview: true,
    ...(beside ? { viewColumn: vscode.ViewColumn.Beside, preserveFocus: true } : {}),
  });
}
