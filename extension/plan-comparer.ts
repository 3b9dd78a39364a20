import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { ToldChange } from '../src/server/change-worker/protocol';
import { runChange } from '../src/server/change-worker/run';
import { type PlanTextsAnswer, requests } from '../src/server/protocol';
import { type GitRepository, gitApi } from './git-repository';
import type { ExtensionHost } from './host';
import { planAtRevision } from './plan-at-revision';
import { planInFront } from './plan-in-front';

const MOST_BRANCHES = 30;

/** What a plan is held against: its last commit, or where the work left a branch. */
export type Against = 'committed' | { readonly branch: string };

/** Compares the plan in front with what Git holds of it, in a worker, one comparison at a time. */
export class PlanComparer {
  private running: AbortController | undefined;

  constructor(
    private readonly dist: vscode.Uri,
    private readonly client: BaseLanguageClient,
    private readonly host: ExtensionHost,
    private readonly shownPlan: () => string | undefined,
  ) {}

  cancel(): void {
    this.running?.abort();
  }

  async planTexts(): Promise<PlanTextsAnswer | undefined> {
    const params = planInFront(this.client, this.shownPlan);
    return (await this.client.sendRequest<PlanTextsAnswer | null>(requests.planTexts, params)) ?? undefined;
  }

  /** A comparison begun before is ended. Undefined where it was; throws, in plain words, where it cannot be made. */
  async compare(
    plan: PlanTextsAnswer,
    repository: GitRepository,
    against: Against,
  ): Promise<ToldChange | undefined> {
    this.running?.abort();
    const running = new AbortController();
    this.running = running;
    try {
      const revision = against === 'committed' ? 'HEAD' : await leftAt(repository, against.branch);
      const old = await planAtRevision(repository, plan, revision);
      if (running.signal.aborted || old.length === 0) return undefined;
      const worker = await this.host.createChangeWorker(this.dist);
      const name = against === 'committed' ? 'the last commit' : against.branch;
      return await runChange(
        worker,
        {
          old: { name, files: old },
          now: { name: plan.name, files: plan.files.map(({ path, text }) => ({ path, text })) },
          linkBase: `${plan.root.replace(/\/$/, '')}/`,
        },
        running.signal,
      );
    } finally {
      if (this.running === running) this.running = undefined;
    }
  }
}

/** The repository that the plan's first file lies in; a sentence for people where there is none. */
export async function repositoryOf({ files }: PlanTextsAnswer): Promise<GitRepository | string> {
  const git = await gitApi();
  if (typeof git === 'string') return git;
  const [first] = files;
  const repository = first && git.getRepository(vscode.Uri.parse(first.uri));
  return (
    repository ??
    vscode.l10n.t(
      'The plan lies in no Git repository, so there is no committed text to compare it with. Put its folder under Git and commit it once.',
    )
  );
}

/** The branches but the one at hand, the first of many. */
export async function branchesOf(repository: GitRepository): Promise<string[]> {
  const now = repository.state.HEAD?.name;
  const branches = await repository.getBranches({ remote: true }).catch(() => []);
  const names = branches.flatMap(({ name }) => (name === undefined || name === now ? [] : [name]));
  return names.slice(0, MOST_BRANCHES);
}

/** The commit at which the work at hand left the branch. */
export async function leftAt(repository: GitRepository, branch: string): Promise<string> {
  return (await repository.getMergeBase('HEAD', branch).catch(() => undefined)) ?? branch;
}
