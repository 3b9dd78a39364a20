import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { tallyInPool } from '../src/release/draws-in-pool';
import { DrawsCancelled, type DrawsPool, drawsInWorkers } from '../src/release/draws-pool';
import type { DrawsJob, DrawsWorker } from '../src/release/draws-protocol';
import { seekInWorkers } from '../src/release/draws-seek';
import { inputsFromWire } from '../src/release/draws-wire';
import type { ToPanel } from '../src/report/timeline-types';
import { requests } from '../src/server/protocol';
import type { DrawsJobAnswer, DrawsResultAnswer, DrawsResultParams } from '../src/server/protocol-draws';
import type { ExtensionHost } from './host';
import { PageTexts } from './page-texts';
import { planInFront } from './plan-in-front';
import { translate } from './translate';

/** Seasons that a schedule's chances are told on, and those that one is sought on, where nobody says how many. */
const DRAWS = 300;
const SOUGHT_ON = 60;
const SEED = 1;
/** Two cores are what a small machine has. */
const WORKERS = 2;

/** How many seasons, for other extensions and tests. */
export interface DrawOptions {
  readonly draws?: number;
  readonly soughtOn?: number;
}

type Report = (text: string, share: number) => void;

interface Work {
  readonly answer: DrawsJobAnswer;
  readonly job: DrawsJob;
  readonly pool: DrawsPool;
  readonly start: () => DrawsWorker;
  readonly signal: AbortSignal;
  readonly report: Report;
}

/** Draws seasons in workers, hands them to the server, and shows them as a page; the timeline shows them too. */
export class DrawCommands implements vscode.Disposable {
  private running: AbortController | undefined;
  private readonly pages = new PageTexts('lotwright-seasons');
  /** Told of every step; the panel shows it. */
  onProgress: (message: ToPanel) => void = () => {};
  /** Seasons were drawn: what shows them is to be fetched anew. */
  onDrawn: () => void = () => {};

  constructor(
    private readonly dist: vscode.Uri,
    private readonly client: BaseLanguageClient,
    private readonly host: ExtensionHost,
    /** A document of the plan that the timeline shows, for when no plan is in front. */
    private readonly shownPlan: () => string | undefined,
  ) {}

  dispose(): void {
    this.cancel();
    this.pages.dispose();
  }

  cancel(): void {
    this.running?.abort();
  }

  /** The chances of the schedule at hand. True where they were drawn and taken. */
  draw({ draws = DRAWS }: DrawOptions = {}): Promise<boolean> {
    return this.once(
      (name) => vscode.l10n.t('Seasons of {0}', name),
      async ({ answer, pool, signal, report }) => {
        const span = { seed: SEED, first: 0, count: draws };
        const onDone = (share: number) => report(vscode.l10n.t('drawing seasons'), share);
        const tally = await tallyInPool(pool, answer.schedule, span, { signal, onDone });
        return { root: answer.root, job: answer.job, span, tally };
      },
    );
  }

  /** A schedule that is good across seasons; both are told on seasons that follow those it was sought on. */
  seek({ draws = DRAWS, soughtOn = SOUGHT_ON }: DrawOptions = {}): Promise<boolean> {
    return this.once(
      (name) => vscode.l10n.t('Schedule good across seasons of {0}', name),
      async (work) => {
        const { answer, job, pool, start, signal, report } = work;
        const task = { start: answer.schedule, seed: SEED, draws: soughtOn, unmet: answer.unmet };
        const found = await seekInWorkers(job, task, {
          pool,
          start,
          signal,
          onProgress: ({ round, share }) =>
            report(
              round === 0
                ? vscode.l10n.t('trying weeks over seasons')
                : vscode.l10n.t('seeking over seasons, round {0}', round),
              share,
            ),
        });
        const span = { seed: SEED, first: soughtOn, count: draws };
        const told = (schedule: typeof found.schedule, from: number) =>
          tallyInPool(pool, schedule, span, {
            signal,
            onDone: (share) => report(vscode.l10n.t('drawing other seasons'), from + share / 2),
          });
        const expected = await told(answer.schedule, 0);
        const tally = await told(found.schedule, 0.5);
        return {
          root: answer.root,
          job: answer.job,
          span,
          tally,
          across: { draws: soughtOn, found, expected },
        };
      },
    );
  }

  /** One at a time: asked again meanwhile, nothing happens. */
  private async once(
    title: (plan: string) => string,
    work: (work: Work) => Promise<DrawsResultParams>,
  ): Promise<boolean> {
    if (this.running) return false;
    const running = new AbortController();
    this.running = running;
    try {
      const answer = await this.client.sendRequest<DrawsJobAnswer | null>(
        requests.drawsJob,
        planInFront(this.client, this.shownPlan),
      );
      if (!answer) {
        void vscode.window.showInformationMessage(
          vscode.l10n.t(
            'There is no schedule to draw seasons for: the plan needs filled rooms with opening windows, demand and packing.',
          ),
        );
        return false;
      }
      return await this.handOver(await this.inWorkers(title(answer.name), answer, running, work));
    } catch (error) {
      if (!(error instanceof DrawsCancelled))
        void vscode.window.showErrorMessage(error instanceof Error ? error.message : String(error));
      return false;
    } finally {
      this.running = undefined;
      this.onProgress({ kind: 'idle' });
    }
  }

  private async inWorkers(
    title: string,
    answer: DrawsJobAnswer,
    running: AbortController,
    work: (work: Work) => Promise<DrawsResultParams>,
  ): Promise<DrawsResultParams> {
    const start = await this.host.drawsWorkers(this.dist);
    const job: DrawsJob = { problem: answer.problem, inputs: inputsFromWire(answer.inputs) };
    const pool = drawsInWorkers(job, start, WORKERS);
    const location = vscode.ProgressLocation.Notification;
    try {
      return await vscode.window.withProgress({ location, title, cancellable: true }, (progress, token) => {
        token.onCancellationRequested(() => running.abort());
        const report: Report = (text, share) => {
          progress.report({ message: `${text}, ${Math.round(100 * share)} %` });
          this.onProgress({ kind: 'progress', text, share });
        };
        return work({ answer, job, pool, start, signal: running.signal, report });
      });
    } finally {
      pool.close();
    }
  }

  private async handOver(params: DrawsResultParams): Promise<boolean> {
    const taken = await this.client.sendRequest<DrawsResultAnswer>(requests.drawsResult, params);
    if (!taken.accepted || !taken.page) {
      void vscode.window.showWarningMessage(translate(taken.message));
      return false;
    }
    vscode.window.setStatusBarMessage(translate(taken.message), 10_000);
    this.onDrawn();
    await this.pages.show(taken.page);
    return true;
  }
}
