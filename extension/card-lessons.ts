import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { CardLesson } from '../src/report/card-types';
import type { ToPanel } from '../src/report/timeline-types';
import { clientCommands } from '../src/server/protocol';
import { type RoomLessonsAnswer, roomLessonsRequest } from '../src/server/protocol-learn';
import type { LearnCommand } from './learn-command';
import { translate } from './translate';
import { lessonsIn } from './view-texts';

type Plan = { readonly uri?: string };

/** What records teach, on a room's card: told when the card is, what a lesson changes when it is asked for. */
export class CardLessons {
  /** What was told last. */
  current: readonly CardLesson[] = [];
  /** Reckons what a lesson changes; there once the command is. */
  learning: LearnCommand | undefined;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly log: vscode.LogOutputChannel,
  ) {}

  /** Nothing is told where the plan was changed meanwhile: its card is asked for anew then. */
  async tell(webview: vscode.Webview, plan: Plan, key: string): Promise<void> {
    try {
      const params = { ...plan, key };
      const answer = await this.client.sendRequest<RoomLessonsAnswer | null>(roomLessonsRequest, params);
      if (!answer) return;
      this.current = answer.lessons;
      const lessons = lessonsIn(answer.lessons, translate);
      void webview.postMessage({ kind: 'roomLessons', key, lessons } satisfies ToPanel);
    } catch (error) {
      this.log.error(`What records teach could not be told: ${String(error)}`);
    }
  }

  async tellEffects(webview: vscode.Webview, plan: Plan, lesson: string): Promise<void> {
    const unending = new vscode.CancellationTokenSource();
    const answer = await this.learning?.ask(plan, [lesson], unending.token).catch((error) => {
      this.log.error(`What a lesson changes could not be told: ${String(error)}`);
      return null;
    });
    const effects = answer?.lessons.find(({ id }) => id === lesson)?.effects;
    const lines = effects?.map(translate) ?? null;
    void webview.postMessage({ kind: 'lessonEffects', lesson, lines } satisfies ToPanel);
  }

  take(plan: Plan, lesson: string): void {
    void vscode.commands.executeCommand(clientCommands.takeLessons, { ...plan, take: [lesson] });
  }
}
