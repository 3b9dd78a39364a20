import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type RoomCardAnswer, type RoomCardParams, requests } from '../src/server/protocol';
import { LANGUAGE } from './client-options';
import { fillOfRow } from './panel-messages';
import { TIMELINE_VIEW, type TimelineView } from './timeline-view';

/** Opens the card of a room, or of the season, on the timeline's page. */
export class CardCommands {
  constructor(
    private readonly client: BaseLanguageClient,
    private readonly timeline: TimelineView,
  ) {}

  /** The room of the row whose menu the command was taken from; else that of the fill, room or lot at the caret. */
  async room(row?: unknown): Promise<void> {
    const key = fillOfRow(row) ?? (await this.keyAtCaret());
    if (key === undefined) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t('Put the caret on a room, a fill, or a lot that is in one.'),
      );
      return;
    }
    await this.show({ of: 'room', key });
  }

  async season(): Promise<void> {
    await this.show({ of: 'season' });
  }

  /** The card goes to the pages that there are; without one to the side panel, which is opened for it. */
  private async show(card: Parameters<TimelineView['showCard']>[0]): Promise<void> {
    const shown = this.timeline.current !== undefined;
    this.timeline.showCard(card);
    if (!shown) await vscode.commands.executeCommand(`${TIMELINE_VIEW}.focus`);
  }

  private async keyAtCaret(): Promise<string | undefined> {
    const editor = vscode.window.activeTextEditor;
    if (editor?.document.languageId !== LANGUAGE) return undefined;
    const { line, character } = editor.selection.active;
    const uri = this.client.code2ProtocolConverter.asUri(editor.document.uri);
    const params: RoomCardParams = { uri, position: { line, character } };
    const answer = await this.client.sendRequest<RoomCardAnswer | null>(requests.roomCard, params);
    return answer?.card.key;
  }
}
