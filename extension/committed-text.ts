import * as vscode from 'vscode';

/** The part of the built-in Git extension that is used; its own types are not published. */
interface GitExtension {
  getAPI(version: 1): GitApi;
}

interface GitApi {
  readonly state: 'uninitialized' | 'initialized';
  readonly onDidChangeState: vscode.Event<unknown>;
  getRepository(uri: vscode.Uri): GitRepository | null;
  openRepository?(root: vscode.Uri): Promise<GitRepository | null>;
}

interface GitRepository {
  show(ref: string, path: string): Promise<string>;
}

const LONGEST_WAIT = 10_000;

/** Reads a file as it was committed last; a sentence for people where the editor cannot. */
export async function committedText(): Promise<((uri: vscode.Uri) => Promise<string | undefined>) | string> {
  const extension = vscode.extensions.getExtension<GitExtension>('vscode.git');
  if (!extension)
    return vscode.l10n.t('This editor has no Git extension, so the committed text cannot be read here.');
  let git: GitApi;
  try {
    git = (await extension.activate()).getAPI(1);
  } catch {
    return vscode.l10n.t('The Git extension is switched off, so the committed text cannot be read.');
  }
  await initialized(git);
  return async (uri) => git.getRepository(uri)?.show('HEAD', uri.fsPath);
}

/** Repositories are known only some time after the extension has begun. */
async function initialized(git: GitApi): Promise<void> {
  if (git.state === 'initialized') return;
  await new Promise<void>((resolve) => {
    const timer = setTimeout(done, LONGEST_WAIT);
    const listening = git.onDidChangeState(() => {
      if (git.state === 'initialized') done();
    });
    function done() {
      clearTimeout(timer);
      listening.dispose();
      resolve();
    }
  });
}
