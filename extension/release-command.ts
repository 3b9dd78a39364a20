import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { ReleaseProgress, ReleaseResult } from '../src/release/types';
import type { ToPanel } from '../src/report/timeline-types';
import {
  type PlanParams,
  type ReleaseProblemAnswer,
  type ReleaseResultAnswer,
  type ReleaseResultParams,
  requests,
} from '../src/server/protocol';
import { LANGUAGE } from './client-options';
import type { ExtensionHost, RunningRelease } from './host';

const STAGES: Readonly<Record<ReleaseProgress['stage'], string>> = {
  searching: 'searching for opening weeks',
  polishing: 'settling packing and sales',
  bounding: 'proving how good it is',
  checking: 'checking the schedule',
};

/** Looks for release weeks in a worker, shows how far it is, and hands what was found to the server. */
export class ReleaseCommand {
  private running: RunningRelease | undefined;
  private cancelled: (() => void) | undefined;
  /** Told of every step; the panel shows it. */
  onProgress: (message: ToPanel) => void = () => {};

  constructor(
    private readonly dist: vscode.Uri,
    private readonly client: BaseLanguageClient,
    private readonly host: ExtensionHost,
  ) {}

  async run(): Promise<void> {
    if (this.cancelled) return;
    const answer = await this.client.sendRequest<ReleaseProblemAnswer | null>(
      requests.releaseProblem,
      this.asks(),
    );
    if (!answer) {
      void vscode.window.showInformationMessage(
        'There is no schedule to find yet: the plan needs filled rooms with opening windows, demand and packing.',
      );
      return;
    }
    const result = await this.withProgress(answer);
    if (result) await this.handOver(answer, result);
  }

  cancel(): void {
    this.cancelled?.();
  }

  private asks(): PlanParams {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId !== LANGUAGE) return {};
    return { uri: this.client.code2ProtocolConverter.asUri(document.uri) };
  }

  /** The schedule; undefined where it was cancelled or could not be found. */
  private async withProgress(answer: ReleaseProblemAnswer): Promise<ReleaseResult | undefined> {
    const options = {
      location: vscode.ProgressLocation.Notification,
      title: `Release weeks of ${answer.name}`,
      cancellable: true,
    };
    return vscode.window.withProgress(options, async (progress, token) => {
      const cancelled = new Promise<undefined>((resolve) => {
        this.cancelled = () => resolve(undefined);
        token.onCancellationRequested(() => resolve(undefined));
      });
      try {
        return await Promise.race([cancelled, this.solve(answer, progress)]);
      } catch (error) {
        void vscode.window.showErrorMessage(`Release weeks could not be found: ${messageOf(error)}`);
        return undefined;
      } finally {
        this.running?.stop();
        this.running = undefined;
        this.cancelled = undefined;
        this.onProgress({ kind: 'idle' });
      }
    });
  }

  private async solve(
    { problem }: ReleaseProblemAnswer,
    progress: vscode.Progress<{ message?: string }>,
  ): Promise<ReleaseResult> {
    const timeLimitSeconds = vscode.workspace
      .getConfiguration('lotwright')
      .get<number>('release.timeLimit', 10);
    const running = await this.host.startRelease(this.dist, {
      problem,
      timeLimitSeconds,
      onProgress: ({ stage, share }) => {
        const text = STAGES[stage];
        progress.report({ message: `${text}, ${Math.round(100 * share)} %` });
        this.onProgress({ kind: 'progress', text, share });
      },
    });
    // Cancelled while the worker was being started.
    if (!this.cancelled) running.stop();
    this.running = running;
    return running.result;
  }

  private async handOver({ root, problem }: ReleaseProblemAnswer, result: ReleaseResult): Promise<void> {
    const params: ReleaseResultParams = { root, problem, result };
    const { accepted, message } = await this.client.sendRequest<ReleaseResultAnswer>(
      requests.releaseResult,
      params,
    );
    if (accepted) vscode.window.setStatusBarMessage(message, 10_000);
    else void vscode.window.showWarningMessage(message);
  }
}

function messageOf(error: unknown): string {
  return error instanceof Error ? error.message : String(error);
}
