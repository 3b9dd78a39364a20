import * as vscode from 'vscode';
import type { ToldChange } from '../src/server/change-worker/protocol';
import type { PlanComputed, PlanTextsAnswer } from '../src/server/protocol';
import type { GitRepository } from './git-repository';
import { type PlanComparer, repositoryOf } from './plan-comparer';

/** Milliseconds without another edit before what a change does is worked out. */
const QUIET = 3000;

/**
 * What the uncommitted change of a plan does, in the source-control view: the gravest consequence as the heading, the
 * files that hold what is worse below it. There is nothing there while nothing of the plan has changed.
 */
export class ChangeInSourceControl implements vscode.Disposable {
  private shown:
    | {
        readonly root: string;
        readonly control: vscode.SourceControl;
        readonly group: vscode.SourceControlResourceGroup;
      }
    | undefined;
  private waiting: ReturnType<typeof setTimeout> | undefined;
  private readonly watched = new Map<GitRepository, vscode.Disposable>();
  private readonly listening: vscode.Disposable;

  constructor(
    private readonly comparer: PlanComparer,
    computed: vscode.Event<PlanComputed>,
    /** Nobody asked for it: what fails is told in the log alone. */
    private readonly log: vscode.LogOutputChannel,
  ) {
    this.listening = computed(() => this.later());
  }

  dispose(): void {
    clearTimeout(this.waiting);
    this.comparer.cancel();
    this.listening.dispose();
    for (const one of this.watched.values()) one.dispose();
    this.clear();
  }

  /** What stands above the files; undefined while there is nothing to tell. */
  get heading(): string | undefined {
    return this.shown?.group.label;
  }

  /** Lines it leads to, as `fruit.lotplan.yaml#L69`. */
  get leadsTo(): readonly string[] {
    return (this.shown?.group.resourceStates ?? []).map(
      ({ resourceUri }) => `${resourceUri.path.split('/').at(-1)}#${resourceUri.fragment}`,
    );
  }

  private later(): void {
    clearTimeout(this.waiting);
    const isWanted = vscode.workspace.getConfiguration('lotwright').get('changeInSourceControl', true);
    if (isWanted)
      this.waiting = setTimeout(
        () => void this.refresh().catch((error: unknown) => this.log.warn(String(error))),
        QUIET,
      );
    else this.clear();
  }

  private async refresh(): Promise<void> {
    const plan = await this.comparer.planTexts();
    const repository = plan && (await repositoryOf(plan));
    if (!plan || !repository || typeof repository === 'string') return this.clear();
    this.watch(repository);
    const told = await this.comparer.compare(plan, repository, 'committed');
    if (!told) return;
    if (told.changes === 0) this.clear();
    else this.show(plan, told);
  }

  /** A commit makes the change part of what is committed. */
  private watch(repository: GitRepository): void {
    if (this.watched.has(repository)) return;
    this.watched.set(
      repository,
      repository.state.onDidChange(() => this.later()),
    );
  }

  private clear(): void {
    this.shown?.control.dispose();
    this.shown = undefined;
  }

  private show(plan: PlanTextsAnswer, { headline, counts, consequences }: ToldChange): void {
    const title = vscode.l10n.t('What the change of {0} does', plan.name);
    const { control, group } = this.shownFor(plan.root, title);
    control.statusBarCommands = [
      { command: 'lotwright.tellChange', title: headline, arguments: ['committed'] },
    ];
    group.label = `${headline} (${counts})`;
    const byFile = new Map(plan.files.map(({ path, uri }) => [path, vscode.Uri.parse(uri)]));
    const worse = consequences.filter(({ direction }) => direction === 'worse');
    group.resourceStates = worse.flatMap(({ text, at }) => {
      const uri = at && byFile.get(at.file);
      if (!at || !uri) return [];
      const selection = new vscode.Range(at.line - 1, 0, at.line - 1, 0);
      return [
        {
          resourceUri: uri.with({ fragment: `L${at.line}` }),
          command: {
            command: 'vscode.open',
            title,
            arguments: [uri, { selection } satisfies vscode.TextDocumentShowOptions],
          },
          decorations: { tooltip: text },
        },
      ];
    });
  }

  /** Made where there is something to tell, and kept while it is of the same plan. */
  private shownFor(root: string, title: string) {
    if (this.shown?.root === root) return this.shown;
    this.clear();
    const control = vscode.scm.createSourceControl('lotwright', title, vscode.Uri.parse(root));
    control.inputBox.visible = false;
    control.count = 0;
    this.shown = { root, control, group: control.createResourceGroup('consequences', title) };
    return this.shown;
  }
}
