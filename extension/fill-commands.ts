import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { fillDefaults } from '../src/server/fill-worker/protocol';
import { FillCancelled, runFill } from '../src/server/fill-worker/run';
import {
  type AcceptFillsAnswer,
  type AcceptFillsParams,
  type FillPageAnswer,
  type FillPageParams,
  type FillProblemAnswer,
  type FillProblemParams,
  type FillResultAnswer,
  type FillResultParams,
  requests,
} from '../src/server/protocol';
import { LANGUAGE } from './client-options';
import type { ExtensionHost } from './host';
import { PageTexts } from './page-texts';
import { planInFront } from './plan-in-front';
import { translate } from './translate';
import { versionedEdit } from './versioned-edit';

const SCHEME = 'lotwright-fills';

/** Proposes fills in a worker, shows the proposal as a page, and writes what the planner accepts into the plan. */
export class FillCommands implements vscode.Disposable {
  private running: AbortController | undefined;
  private readonly pages = new PageTexts(SCHEME);

  constructor(
    private readonly dist: vscode.Uri,
    private readonly client: BaseLanguageClient,
    private readonly host: ExtensionHost,
    /** A document of the plan that the timeline shows, for when no plan is in front. */
    private readonly shownPlan: () => string | undefined,
  ) {}

  dispose(): void {
    this.running?.abort();
    this.pages.dispose();
  }

  /** One search at a time: asked again meanwhile, nothing happens. Gives the rooms proposed. */
  async propose(): Promise<readonly string[] | undefined> {
    if (this.running) return undefined;
    this.running = new AbortController();
    try {
      return await this.proposeFor(this.running);
    } catch (error) {
      if (!(error instanceof FillCancelled))
        void vscode.window.showErrorMessage(error instanceof Error ? error.message : String(error));
      return undefined;
    } finally {
      this.running = undefined;
    }
  }

  private async proposeFor(running: AbortController): Promise<readonly string[] | undefined> {
    const topUp = vscode.workspace.getConfiguration('lotwright').get('fill.topUp', false);
    const params: FillProblemParams = { ...planInFront(this.client, this.shownPlan), topUp };
    const answer = await this.client.sendRequest<FillProblemAnswer | null>(requests.fillProblem, params);
    if (!answer) return this.tell(vscode.l10n.t('There is no plan to propose fills for.'));
    const { problem, name, root } = answer;
    if (problem.lots.length === 0)
      return this.tell(
        vscode.l10n.t('{0}: no bins wait for a room. The fills of the plan take all there are.', name),
      );
    if (problem.rooms.length === 0)
      return this.tell(
        vscode.l10n.t(
          '{0}: every room has its fill; {1} lots still have bins without one.',
          name,
          problem.lots.length,
        ),
      );
    const options = {
      location: vscode.ProgressLocation.Notification,
      title: vscode.l10n.t('Fills of {0}', name),
      cancellable: true,
    };
    const taken = await vscode.window.withProgress(options, async (progress, token) => {
      token.onCancellationRequested(() => running.abort());
      const wasm = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(this.dist, 'highs.wasm'));
      const result = await runFill(problem, fillDefaults, {
        worker: await this.host.createFillWorker(this.dist),
        wasm: { bytes: wasm },
        signal: running.signal,
        onProgress: (share) =>
          progress.report({ message: vscode.l10n.t('trying fills, {0} %', Math.round(100 * share)) }),
      });
      progress.report({ message: vscode.l10n.t('held against findings, packhouse and market') });
      return this.judged({ root, topUp, problem, result }, token);
    });
    if (!taken.accepted || !taken.page) {
      void vscode.window.showWarningMessage(translate(taken.message));
      return undefined;
    }
    vscode.window.setStatusBarMessage(`${name}: ${translate(taken.message)}`, 10_000);
    await this.pages.show(taken.page);
    return taken.rooms;
  }

  /** What the server makes of a proposal; throws `FillCancelled` once it is cancelled. */
  private async judged(handed: FillResultParams, token: vscode.CancellationToken): Promise<FillResultAnswer> {
    try {
      const answer = await this.client.sendRequest<FillResultAnswer>(requests.fillResult, handed, token);
      if (!token.isCancellationRequested) return answer;
    } catch (error) {
      if (!token.isCancellationRequested) throw error;
    }
    throw new FillCancelled();
  }

  /** The room with this name, else the one the caret is about; where that is none, the planner chooses. */
  async acceptRoom(room?: string): Promise<void> {
    const params =
      room === undefined ? this.atCaret() : { ...planInFront(this.client, this.shownPlan), room };
    const answer = await this.ask(params);
    if (!answer) return;
    if (answer.rooms.length > 0) return this.apply(answer);
    if (room !== undefined) {
      this.tell(
        vscode.l10n.t(
          '{0} is not in the proposal, or the plan has changed so that it can no longer be filled so.',
          room,
        ),
      );
      return;
    }
    const chosen = await vscode.window.showQuickPick(
      answer.open.map(({ room: label, what }) => ({ label, description: translate(what) })),
      { placeHolder: vscode.l10n.t('The room to fill as proposed') },
    );
    if (chosen) await this.acceptRoom(chosen.label);
  }

  async acceptAll(): Promise<void> {
    const answer = await this.ask(planInFront(this.client, this.shownPlan));
    if (!answer) return;
    if (answer.rooms.length > 0) await this.apply(answer);
    else
      this.tell(
        vscode.l10n.t(
          'No room of the proposal is left to accept, or the plan has changed. Propose fills again.',
        ),
      );
  }

  private async ask(params: AcceptFillsParams): Promise<AcceptFillsAnswer | undefined> {
    const answer = await this.client.sendRequest<AcceptFillsAnswer | null>(requests.acceptFills, params);
    if (!answer) this.tell(vscode.l10n.t('No fills are proposed for this plan yet. Propose them first.'));
    return answer ?? undefined;
  }

  private async apply({ root, edits, versions, rooms }: AcceptFillsAnswer): Promise<void> {
    const edit = await versionedEdit({ edits, versions });
    if (!edit || !(await vscode.workspace.applyEdit(edit))) return refused();
    await this.redraw(root);
    const told =
      rooms.length === 1
        ? vscode.l10n.t('{0} is filled in the plan. Undo takes it back.', rooms[0] ?? '')
        : vscode.l10n.t('{0} rooms are filled in the plan. Undo takes it back.', rooms.length);
    vscode.window.setStatusBarMessage(told, 10_000);
  }

  /** The page with what is left of the proposal, where it is still open. */
  private async redraw(root: string): Promise<void> {
    const params: FillPageParams = { root };
    const page = await this.client.sendRequest<FillPageAnswer | null>(requests.fillPage, params);
    if (page) this.pages.redraw(page);
  }

  private tell(message: string): undefined {
    void vscode.window.showInformationMessage(message);
    return undefined;
  }

  private atCaret(): AcceptFillsParams {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== LANGUAGE)
      return { ...planInFront(this.client, this.shownPlan), position: { line: 0, character: 0 } };
    const { line, character } = editor.selection.active;
    return { uri: this.uriOf(editor.document), position: { line, character } };
  }

  private uriOf({ uri }: vscode.TextDocument): string {
    return this.client.code2ProtocolConverter.asUri(uri);
  }
}

function refused(): void {
  void vscode.window.showWarningMessage(
    vscode.l10n.t('The plan was changed meanwhile. Nothing was filled; ask again.'),
  );
}
