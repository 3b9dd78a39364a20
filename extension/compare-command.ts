import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  type CompareAnswer,
  type CompareParams,
  type PlanTextsAnswer,
  requests,
} from '../src/server/protocol';
import { planAtRevision } from './plan-at-revision';
import { branchesOf, leftAt, repositoryOf } from './plan-comparer';
import type { TimelineView } from './timeline-view';
import { translate } from './translate';

type Against =
  | 'saved'
  | 'committed'
  | 'nothing'
  | { readonly branch: string }
  | { readonly scenario: string };

interface Choice extends vscode.QuickPickItem {
  readonly against: Against;
}

/** Another state of the plan as it is asked for, or why there is none. */
type Other = NonNullable<CompareParams['against']> | string;

/** Holds the timeline against the plan's saved or committed text, a branch, or a scenario of the plan. */
export class CompareCommand {
  constructor(
    private readonly client: BaseLanguageClient,
    private readonly timeline: TimelineView,
  ) {}

  /** `against` is for other extensions and tests; people are asked. */
  async run(against?: Against): Promise<void> {
    const uri = Object.values(this.timeline.current?.files ?? {})[0];
    const plan =
      uri === undefined
        ? null
        : await this.client.sendRequest<PlanTextsAnswer | null>(requests.planTexts, { uri });
    const wanted = against ?? (await ask(plan ?? undefined));
    if (wanted === undefined) return;
    if (uri === undefined || !plan) {
      tell(
        vscode.l10n.t('There is no timeline to compare. Open the room timeline first, with a plan in front.'),
      );
      return;
    }
    if (wanted === 'nothing') {
      await this.send({ uri });
      return;
    }
    const other = await otherState(plan, wanted);
    if (typeof other === 'string') tell(other);
    else await this.send({ uri, against: other });
  }

  private async send(params: CompareParams): Promise<void> {
    const answer = await this.client.sendRequest<CompareAnswer | null>(requests.compare, params);
    if (answer && answer.note !== '') vscode.window.setStatusBarMessage(translate(answer.note), 10_000);
    this.timeline.refresh();
  }
}

async function ask(plan: PlanTextsAnswer | undefined): Promise<Against | undefined> {
  const choices: Choice[] = [
    {
      against: 'saved',
      label: vscode.l10n.t('The last saved text'),
      description: vscode.l10n.t('what unsaved edits change'),
    },
    {
      against: 'committed',
      label: vscode.l10n.t('The last committed text'),
      description: vscode.l10n.t('what has changed since the last commit'),
    },
    ...(plan?.scenarios ?? []).map((scenario) => ({
      against: { scenario },
      label: scenario,
      description: vscode.l10n.t('a scenario of the plan'),
    })),
    ...(await branches(plan)),
    {
      against: 'nothing',
      label: vscode.l10n.t('Nothing'),
      description: vscode.l10n.t('the plan alone again'),
    },
  ];
  const picked = await vscode.window.showQuickPick(choices, {
    title: vscode.l10n.t('Compare the timeline with'),
  });
  return picked?.against;
}

async function branches(plan: PlanTextsAnswer | undefined): Promise<Choice[]> {
  const repository = plan && (await repositoryOf(plan));
  if (!repository || typeof repository === 'string') return [];
  return (await branchesOf(repository)).map((branch) => ({
    against: { branch },
    label: branch,
    description: vscode.l10n.t('what the work has changed since it left this branch'),
  }));
}

async function otherState(plan: PlanTextsAnswer, wanted: Exclude<Against, 'nothing'>): Promise<Other> {
  if (wanted === 'saved') {
    const files = await savedFiles(plan);
    return files.length === 0
      ? vscode.l10n.t('The plan has not been saved yet.')
      : { label: 'the last saved text', files };
  }
  if (typeof wanted === 'object' && 'scenario' in wanted) return wanted;
  const repository = await repositoryOf(plan);
  if (typeof repository === 'string') return repository;
  const revision = wanted === 'committed' ? 'HEAD' : await leftAt(repository, wanted.branch);
  const files = await planAtRevision(repository, plan, revision);
  if (files.length === 0) return vscode.l10n.t('The plan has not been committed yet.');
  return { label: wanted === 'committed' ? 'the last committed text' : wanted.branch, files };
}

/** The files that there are on disk; others are left out. */
async function savedFiles({ files }: PlanTextsAnswer): Promise<{ path: string; text: string }[]> {
  const texts = await Promise.all(
    files.map(async ({ path, uri }) => {
      try {
        const bytes = await vscode.workspace.fs.readFile(vscode.Uri.parse(uri));
        return [{ path, text: new TextDecoder().decode(bytes) }];
      } catch {
        return [];
      }
    }),
  );
  return texts.flat();
}

function tell(text: string): void {
  void vscode.window.showInformationMessage(text);
}
