import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { ReleaseCancelled, runRelease } from '../src/release/run-release';
import type { ReleaseProgress, ReleaseResult } from '../src/release/types';
import { releaseDefaults } from '../src/release/worker-protocol';
import type { ToPanel } from '../src/report/timeline-types';
import {
  type PlanParams,
  type ReleaseProblemAnswer,
  type ReleaseResultAnswer,
  type ReleaseResultParams,
  requests,
} from '../src/server/protocol';
import { LANGUAGE } from './client-options';
import type { ExtensionHost } from './host';
import { translate } from './translate';

const stages = (): Readonly<Record<ReleaseProgress['stage'], string>> => ({
  searching: vscode.l10n.t('searching for opening weeks'),
  polishing: vscode.l10n.t('settling packing and sales'),
  bounding: vscode.l10n.t('proving how good it is'),
  checking: vscode.l10n.t('checking the schedule'),
});

/** Looks for release weeks in a worker, shows how far it is, and hands what was found to the server. */
export class ReleaseCommand {
  private running: AbortController | undefined;
  /** Told of every step; the panel shows it. */
  onProgress: (message: ToPanel) => void = () => {};

  constructor(
    private readonly dist: vscode.Uri,
    private readonly client: BaseLanguageClient,
    private readonly host: ExtensionHost,
  ) {}

  /** One search at a time: asked again meanwhile, nothing happens. */
  async run(): Promise<void> {
    if (this.running) return;
    this.running = new AbortController();
    try {
      await this.findFor(await this.problem(), this.running);
    } catch (error) {
      if (!(error instanceof ReleaseCancelled)) void vscode.window.showErrorMessage(messageOf(error));
    } finally {
      this.running = undefined;
      this.onProgress({ kind: 'idle' });
    }
  }

  cancel(): void {
    this.running?.abort();
  }

  private problem(): Promise<ReleaseProblemAnswer | null> {
    const document = vscode.window.activeTextEditor?.document;
    const params: PlanParams =
      document?.languageId === LANGUAGE
        ? { uri: this.client.code2ProtocolConverter.asUri(document.uri) }
        : {};
    return this.client.sendRequest<ReleaseProblemAnswer | null>(requests.releaseProblem, params);
  }

  private async findFor(answer: ReleaseProblemAnswer | null, running: AbortController): Promise<void> {
    if (!answer) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t(
          'There is no schedule to find yet: the plan needs filled rooms with opening windows, demand and packing.',
        ),
      );
      return;
    }
    const options = {
      location: vscode.ProgressLocation.Notification,
      title: vscode.l10n.t('Release weeks of {0}', answer.name),
      cancellable: true,
    };
    const result = await vscode.window.withProgress(options, (progress, token) => {
      token.onCancellationRequested(() => running.abort());
      return this.solve(answer, progress, running.signal);
    });
    await this.handOver(answer, result);
  }

  private async solve(
    { problem }: ReleaseProblemAnswer,
    progress: vscode.Progress<{ message?: string }>,
    signal: AbortSignal,
  ): Promise<ReleaseResult> {
    const wasm = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(this.dist, 'highs.wasm'));
    const createWorker = await this.host.releaseWorkers(this.dist);
    const settings = vscode.workspace.getConfiguration('lotwright');
    const timeLimitSeconds = settings.get('release.timeLimit', releaseDefaults.timeLimitSeconds);
    return runRelease(
      problem,
      { ...releaseDefaults, timeLimitSeconds },
      {
        createWorker,
        wasm: { bytes: wasm },
        signal,
        onProgress: ({ stage, share }) => {
          const text = stages()[stage];
          progress.report({ message: `${text}, ${Math.round(100 * share)} %` });
          this.onProgress({ kind: 'progress', text, share });
        },
      },
    );
  }

  private async handOver({ root, problem }: ReleaseProblemAnswer, result: ReleaseResult): Promise<void> {
    const params: ReleaseResultParams = { root, problem, result };
    const { accepted, message } = await this.client.sendRequest<ReleaseResultAnswer>(
      requests.releaseResult,
      params,
    );
    if (accepted) vscode.window.setStatusBarMessage(translate(message), 10_000);
    else void vscode.window.showWarningMessage(translate(message));
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
