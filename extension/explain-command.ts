import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type ExplainAnswer, type ExplainParams, requests } from '../src/server/protocol';
import { LANGUAGE } from './client-options';
import { showMarkdown } from './markdown-page';
import { withCautions } from './translate';

const SCHEME = 'lotwright-explain';

/** Shows how the figures at the caret came about, as a read-only page beside the plan. */
export class ExplainCommand implements vscode.TextDocumentContentProvider, vscode.Disposable {
  private readonly texts = new Map<string, string>();
  private readonly changed = new vscode.EventEmitter<vscode.Uri>();
  readonly onDidChange = this.changed.event;
  private readonly disposables: vscode.Disposable[];

  constructor(private readonly client: BaseLanguageClient) {
    this.disposables = [
      this.changed,
      vscode.workspace.registerTextDocumentContentProvider(SCHEME, this),
      vscode.workspace.onDidCloseTextDocument(({ uri }) => this.texts.delete(uri.toString())),
    ];
  }

  provideTextDocumentContent(uri: vscode.Uri): string {
    return this.texts.get(uri.toString()) ?? '';
  }

  /** At the place given, as a line of figures above an entry gives it, else at the caret. */
  async run(place?: unknown): Promise<void> {
    const params = isPlace(place) ? place : this.atCaret();
    if (!params) return;
    const answer = await this.client.sendRequest<ExplainAnswer | null>(requests.explain, params);
    if (!answer) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t(
          'No figures belong to this place. Put the caret on a room, fill, lot, variety, regime, scrubber or demand.',
        ),
      );
      return;
    }
    await this.show(answer);
  }

  private atCaret(): ExplainParams | undefined {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== LANGUAGE) return undefined;
    const { line, character } = editor.selection.active;
    const uri = this.client.code2ProtocolConverter.asUri(editor.document.uri);
    return { uri, position: { line, character } };
  }

  dispose(): void {
    for (const disposable of this.disposables) disposable.dispose();
  }

  private async show({ title, markdown }: ExplainAnswer): Promise<void> {
    const uri = vscode.Uri.from({ scheme: SCHEME, path: `/${title.replace(/[\\/?#]/g, ' ')}.md` });
    this.texts.set(uri.toString(), withCautions(markdown));
    this.changed.fire(uri);
    await showMarkdown(uri, true);
  }
}

function isPlace(place: unknown): place is ExplainParams {
  return typeof place === 'object' && place !== null && 'uri' in place && 'position' in place;
}
