import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type PlaceParams, requests } from '../src/server/protocol';
import { LANGUAGE } from './client-options';

/** A caret that has not been moved for so long stands, milliseconds. */
const STAND = 60;

/** Finds the timeline row in whose text the editor's caret stands, once it has stood there for a moment. */
export class CaretRow implements vscode.Disposable {
  /** The row's key; null where the caret stands in no room's text. */
  row: string | null = null;
  private standing: ReturnType<typeof setTimeout> | undefined;
  private readonly moves: vscode.Disposable;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly tell: () => void,
    private readonly log: vscode.LogOutputChannel,
  ) {
    this.moves = vscode.window.onDidChangeTextEditorSelection(({ textEditor }) => this.follow(textEditor));
  }

  follow(editor = vscode.window.activeTextEditor): void {
    clearTimeout(this.standing);
    if (editor?.document.languageId !== LANGUAGE) return;
    const { line, character: at } = editor.selection.active;
    // In the indentation the caret stands in the line's text all the same.
    const character = Math.max(at, editor.document.lineAt(line).firstNonWhitespaceCharacterIndex);
    const uri = this.client.code2ProtocolConverter.asUri(editor.document.uri);
    this.standing = setTimeout(() => void this.ask({ uri, position: { line, character } }), STAND);
  }

  dispose(): void {
    clearTimeout(this.standing);
    this.moves.dispose();
  }

  private async ask(params: PlaceParams): Promise<void> {
    try {
      const row = await this.client.sendRequest<string | null>(requests.rowAt, params);
      if (row === this.row) return;
      this.row = row;
      this.tell();
    } catch (error) {
      this.log.error(`The room at the caret could not be found: ${String(error)}`);
    }
  }
}
