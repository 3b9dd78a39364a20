import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { runRelease } from '../src/release/run-release';
import type { ReleaseProblem, ReleaseResult } from '../src/release/types';
import { releaseDefaults } from '../src/release/worker-protocol';
import { type AskAnswer, type AskParams, askRequest } from '../src/server/protocol-ask';
import type { ExtensionHost } from './host';
import { planInFront } from './plan-in-front';

/**
 * Questions that an assistant of the editor can put to the plan in front. Nothing is registered in editors that have no
 * such assistants; the names come from the manifest, which has the list that the server answers.
 */
export function registerAssistantTools(
  context: vscode.ExtensionContext,
  client: BaseLanguageClient,
  host: ExtensionHost,
  shownPlan: () => string | undefined,
): vscode.Disposable[] {
  // Editors that follow an older or a narrower interface lack it, whatever its types say.
  const { lm } = vscode as { readonly lm?: Partial<typeof vscode.lm> };
  if (typeof lm?.registerTool !== 'function' || typeof vscode.LanguageModelToolResult !== 'function')
    return [];
  const dist = vscode.Uri.joinPath(context.extensionUri, 'dist');
  const tools = new AssistantTools(dist, client, host, shownPlan);
  return toolNames(context).map((name) =>
    vscode.lm.registerTool(name, {
      prepareInvocation: () => ({ invocationMessage: vscode.l10n.t('Asking the storage plan') }),
      invoke: ({ input }, token) => tools.answer(name, input, token),
    }),
  );
}

/** For the assistant, not for people: as the questions themselves in one language. */
const NO_PLAN = 'There is no plan. Open one of its files first.';

function toolNames({ extension }: vscode.ExtensionContext): string[] {
  const declared: readonly { readonly name: string }[] =
    extension.packageJSON.contributes?.languageModelTools ?? [];
  return declared.map(({ name }) => name);
}

class AssistantTools {
  constructor(
    private readonly dist: vscode.Uri,
    private readonly client: BaseLanguageClient,
    private readonly host: ExtensionHost,
    private readonly shownPlan: () => string | undefined,
  ) {}

  async answer(
    name: string,
    input: unknown,
    token: vscode.CancellationToken,
  ): Promise<vscode.LanguageModelToolResult> {
    const page = await this.pageFor(input);
    const params: AskParams = {
      ...planInFront(this.client, this.shownPlan),
      name,
      input,
      ...(page !== undefined && { page }),
    };
    let answer = await this.ask(params);
    if (answer && 'problem' in answer)
      answer = await this.ask({ ...params, solved: await this.solve(answer.problem, token) });
    if (!answer || 'problem' in answer) return textResult([NO_PLAN]);
    return textResult(answer.caution === undefined ? [answer.text] : [answer.text, answer.caution]);
  }

  private ask(params: AskParams): Promise<AskAnswer | null> {
    return this.client.sendRequest<AskAnswer | null>(askRequest, params);
  }

  private async solve(problem: ReleaseProblem, token: vscode.CancellationToken): Promise<ReleaseResult> {
    const stop = new AbortController();
    token.onCancellationRequested(() => stop.abort());
    const wasm = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(this.dist, 'highs.wasm'));
    const createWorker = await this.host.releaseWorkers(this.dist);
    const timeLimitSeconds = vscode.workspace
      .getConfiguration('lotwright')
      .get('release.timeLimit', releaseDefaults.timeLimitSeconds);
    return runRelease(
      problem,
      { ...releaseDefaults, timeLimitSeconds },
      { createWorker, wasm: { bytes: wasm }, signal: stop.signal, onProgress: () => {} },
    );
  }

  /** The page of a finding's code, where that is what is asked for: the server does not read the extension's files. */
  private async pageFor(input: unknown): Promise<string | undefined> {
    const figure =
      typeof input === 'object' && input !== null && 'figure' in input ? input.figure : undefined;
    if (typeof figure !== 'string' || !/^[a-z]+(-[a-z0-9]+)*$/.test(figure)) return undefined;
    try {
      const bytes = await vscode.workspace.fs.readFile(
        vscode.Uri.joinPath(this.dist, 'pages', `${figure}.md`),
      );
      return new TextDecoder().decode(bytes);
    } catch {
      return undefined;
    }
  }
}

function textResult(parts: readonly string[]): vscode.LanguageModelToolResult {
  return new vscode.LanguageModelToolResult(parts.map((part) => new vscode.LanguageModelTextPart(part)));
}
