import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { ToldChange } from '../src/server/change-worker/protocol';
import { runChange } from '../src/server/change-worker/run';
import { type PlanTextsAnswer, requests } from '../src/server/protocol';
import { type GitRepository, gitApi } from './git-repository';
import type { ExtensionHost } from './host';
import { PageTexts } from './page-texts';
import { planAtRevision } from './plan-at-revision';
import { planInFront } from './plan-in-front';

const SCHEME = 'lotwright-change';
const MOST_BRANCHES = 30;

/** What a plan is held against: its last commit, or where the work left a branch. */
export type Against = 'committed' | { readonly branch: string };

interface Choice extends vscode.QuickPickItem {
  readonly against: Against;
}

/** Tells what a change of the plan does to rooms, weeks and cartons, as a page with links into the plan. */
export class ChangeCommand implements vscode.Disposable {
  private readonly pages = new PageTexts(SCHEME);
  private running: AbortController | undefined;

  constructor(
    private readonly dist: vscode.Uri,
    private readonly client: BaseLanguageClient,
    private readonly host: ExtensionHost,
    private readonly shownPlan: () => string | undefined,
  ) {}

  dispose(): void {
    this.running?.abort();
    this.pages.dispose();
  }

  /** `against` is for other extensions and tests; people are asked. Gives what was told. */
  async run(against?: Against): Promise<ToldChange | undefined> {
    const plan = await this.planTexts();
    const repository = plan && (await repositoryOf(plan));
    if (!plan || !repository) return this.tell(vscode.l10n.t('There is no plan in front to compare.'));
    if (typeof repository === 'string') return this.tell(repository);
    const wanted = against ?? (await this.ask(repository));
    if (wanted === undefined) return undefined;
    const options = {
      location: vscode.ProgressLocation.Notification,
      title: vscode.l10n.t('What the change of {0} does', plan.name),
      cancellable: true,
    };
    const told = await vscode.window.withProgress(options, async (_, token) => {
      token.onCancellationRequested(() => this.running?.abort());
      return this.compare(plan, repository, wanted);
    });
    if (!told) return undefined;
    vscode.window.setStatusBarMessage(told.headline, 10_000);
    if (told.markdown !== '')
      await this.pages.show({
        title: vscode.l10n.t('What the change of {0} does', plan.name),
        markdown: told.markdown,
      });
    else this.tell(told.headline);
    return told;
  }

  /** Compares in a worker, one at a time: a comparison begun before is ended. Undefined where it was. */
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
    } catch (error) {
      this.tell(error instanceof Error ? error.message : String(error));
      return undefined;
    } finally {
      if (this.running === running) this.running = undefined;
    }
  }

  async planTexts(): Promise<PlanTextsAnswer | undefined> {
    const params = planInFront(this.client, this.shownPlan);
    return (await this.client.sendRequest<PlanTextsAnswer | null>(requests.planTexts, params)) ?? undefined;
  }

  private async ask(repository: GitRepository): Promise<Against | undefined> {
    const names = await branchesOf(repository);
    const choices: Choice[] = [
      {
        against: 'committed',
        label: vscode.l10n.t('The last committed text'),
        description: vscode.l10n.t('what has changed since the last commit'),
      },
      ...names.map((branch) => ({
        against: { branch },
        label: branch,
        description: vscode.l10n.t('what the work has changed since it left this branch'),
      })),
    ];
    const picked = await vscode.window.showQuickPick(choices, {
      title: vscode.l10n.t('Tell what has changed since'),
    });
    return picked?.against;
  }

  private tell(text: string): undefined {
    void vscode.window.showInformationMessage(text);
  }
}

/** The repository that the plan's first file lies in; a sentence for people where there is none. */
export async function repositoryOf({ files }: PlanTextsAnswer): Promise<GitRepository | string> {
  const git = await gitApi();
  if (typeof git === 'string') return git;
  const [first] = files;
  const repository = first && git.getRepository(vscode.Uri.parse(first.uri));
  return repository ?? vscode.l10n.t('The plan lies in no Git repository.');
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
