import * as vscode from 'vscode';
import type { ToldChange } from '../src/server/change-worker/protocol';
import type { GitRepository } from './git-repository';
import { PageTexts } from './page-texts';
import { type Against, branchesOf, type PlanComparer, repositoryOf } from './plan-comparer';

const SCHEME = 'lotwright-change';

interface Choice extends vscode.QuickPickItem {
  readonly against: Against;
}

/** Tells what a change of the plan does to rooms, weeks and cartons, as a page with links into the plan. */
export class ChangeCommand implements vscode.Disposable {
  private readonly pages = new PageTexts(SCHEME);

  constructor(private readonly comparer: PlanComparer) {}

  dispose(): void {
    this.comparer.cancel();
    this.pages.dispose();
  }

  /** `against` is for other extensions and tests; people are asked. Gives what was told. */
  async run(against?: Against): Promise<ToldChange | undefined> {
    const plan = await this.comparer.planTexts();
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
      token.onCancellationRequested(() => this.comparer.cancel());
      try {
        return await this.comparer.compare(plan, repository, wanted);
      } catch (error) {
        return this.tell(error instanceof Error ? error.message : String(error));
      }
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
