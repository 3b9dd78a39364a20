import * as vscode from 'vscode';

/** The part of the built-in Git extension that is used; its own types are not published. */
interface GitExtension {
  getAPI(version: 1): GitApi;
}

export interface GitApi {
  readonly state: 'uninitialized' | 'initialized';
  readonly onDidChangeState: vscode.Event<unknown>;
  readonly onDidOpenRepository: vscode.Event<GitRepository>;
  readonly repositories: readonly GitRepository[];
  getRepository(uri: vscode.Uri): GitRepository | null;
}

export interface GitRepository {
  readonly rootUri: vscode.Uri;
  readonly state: {
    readonly HEAD: { readonly name?: string; readonly commit?: string } | undefined;
    readonly onDidChange: vscode.Event<void>;
  };
  show(ref: string, path: string): Promise<string>;
  diffWith(ref: string): Promise<readonly { readonly originalUri: vscode.Uri }[]>;
  getMergeBase(one: string, other: string): Promise<string | undefined>;
  getBranches(query: { readonly remote?: boolean }): Promise<readonly { readonly name?: string }[]>;
}

const LONGEST_WAIT = 10_000;

/** The built-in Git extension, once it knows the repositories; a sentence for people where there is none. */
export async function gitApi(): Promise<GitApi | string> {
  const extension = vscode.extensions.getExtension<GitExtension>('vscode.git');
  if (!extension)
    return vscode.l10n.t('This editor has no Git extension, so the committed text cannot be read here.');
  try {
    const git = (await extension.activate()).getAPI(1);
    await initialized(git);
    return git;
  } catch {
    return vscode.l10n.t('The Git extension is switched off, so the committed text cannot be read.');
  }
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
