import type * as vscode from 'vscode';
import { gitApi } from './git-repository';

/** Reads a file as it was committed last; a sentence for people where the editor cannot. */
export async function committedText(): Promise<((uri: vscode.Uri) => Promise<string | undefined>) | string> {
  const git = await gitApi();
  if (typeof git === 'string') return git;
  return async (uri) => git.getRepository(uri)?.show('HEAD', uri.fsPath);
}
