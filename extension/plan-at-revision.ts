import * as vscode from 'vscode';
import type { PlanTextsAnswer } from '../src/server/protocol';
import type { GitRepository } from './git-repository';

const ENDING = '.lotplan.yaml';

type PlanFile = PlanTextsAnswer['files'][number];

/**
 * The plan's files as a revision has them, those that have been deleted or renamed since included. A file that the
 * revision does not have is left out.
 */
export async function planAtRevision(
  repository: GitRepository,
  { root, files }: PlanTextsAnswer,
  revision: string,
): Promise<{ path: string; text: string }[]> {
  const known = new Set(files.map(({ uri }) => vscode.Uri.parse(uri).toString()));
  const changes = await repository.diffWith(revision).catch(() => []);
  const rootPath = `${vscode.Uri.parse(root).path.replace(/\/$/, '')}/`;
  const gone = changes
    .map(({ originalUri }) => originalUri)
    .filter((uri) => uri.path.startsWith(rootPath) && uri.path.endsWith(ENDING) && !known.has(uri.toString()))
    .map((uri) => ({ path: uri.path.slice(rootPath.length), uri: uri.toString() }));
  const wanted: Pick<PlanFile, 'path' | 'uri'>[] = [...files, ...gone];
  const texts = await Promise.all(
    wanted.map(async ({ path, uri }) => {
      const text = await repository.show(revision, vscode.Uri.parse(uri).fsPath).catch(() => undefined);
      return text === undefined ? [] : [{ path, text }];
    }),
  );
  return texts.flat();
}
