import * as vscode from 'vscode';
import { type BaseLanguageClient, CancellationTokenSource } from 'vscode-languageclient';
import {
  type LearnAnswer,
  type LearnShare,
  learnRequest,
  learnShare,
  type TakeLessonsAnswer,
  type ToldLesson,
  takeLessonsRequest,
} from '../src/server/protocol-learn';
import { planInFront } from './plan-in-front';
import { translate } from './translate';
import { versionedEdit } from './versioned-edit';

/** What the command would ask; given by the line above an entry, the card, other extensions and tests. */
export interface LearnOptions {
  /** A document of the plan; without one, the plan in front. */
  readonly uri?: string;
  /** Lessons to choose among; all where none are named. */
  readonly of?: readonly string[];
  /** Takes these in without asking. */
  readonly take?: readonly string[];
}

interface Choice extends vscode.QuickPickItem {
  readonly lesson?: ToldLesson;
}

/** Offers what the plan's records teach, each lesson with its interval and what it changes, and takes in what is chosen. */
export class LearnCommand implements vscode.Disposable {
  private asks = 0;
  private readonly progress = new Map<number, (share: number) => void>();
  private readonly listener: vscode.Disposable;

  constructor(
    private readonly client: BaseLanguageClient,
    private readonly shown: () => string | undefined,
  ) {
    this.listener = client.onNotification(learnShare, ({ ask, share }: LearnShare) =>
      this.progress.get(ask)?.(share),
    );
  }

  dispose(): void {
    this.listener.dispose();
  }

  /** The lessons that were taken in. */
  async run(given: LearnOptions = {}): Promise<readonly string[]> {
    const plan = given.uri === undefined ? planInFront(this.client, this.shown) : { uri: given.uri };
    const of = given.take ?? given.of;
    const answer = await this.learn(plan, of);
    if (!answer) return [];
    const open = answer.lessons.filter(({ written }) => !written);
    const chosen = given.take ? open : await this.choose(answer, open);
    if (chosen.length === 0) return [];
    return this.take(plan, chosen);
  }

  /** What records teach, with progress and a way to end it; undefined where it was ended, or there is nothing. */
  private async learn(
    plan: { readonly uri?: string },
    of: readonly string[] | undefined,
  ): Promise<LearnAnswer | undefined> {
    const ended = new CancellationTokenSource();
    const options = {
      location: vscode.ProgressLocation.Notification,
      title: vscode.l10n.t('What the records teach'),
      cancellable: true,
    };
    const answer = await vscode.window.withProgress(options, async (progress, token) => {
      token.onCancellationRequested(() => ended.cancel());
      return this.ask(plan, of, ended.token, (message, increment) => progress.report({ message, increment }));
    });
    if (ended.token.isCancellationRequested) return undefined;
    if (!answer) return tell(vscode.l10n.t('There is no plan to learn for, or it was changed meanwhile.'));
    if (answer.lessons.length > 0) return answer;
    return tell(
      vscode.l10n.t(
        '{0}: the records teach nothing yet. It takes readings of sealed rooms, samples, packed runs, or receipts beside estimates.',
        answer.name,
      ),
    );
  }

  /** One question to the server, with its share told as it goes. */
  async ask(
    plan: { readonly uri?: string },
    of: readonly string[] | undefined,
    token: vscode.CancellationToken | CancellationTokenSource['token'],
    report: (message: string, increment: number) => void = () => {},
  ): Promise<LearnAnswer | null> {
    const ask = ++this.asks;
    let told = 0;
    this.progress.set(ask, (share) => {
      const percent = Math.round(100 * share);
      report(vscode.l10n.t('what it would change, {0} %', percent), percent - told);
      told = percent;
    });
    try {
      const params = { ...plan, ask, ...(of && { of }) };
      return await this.client.sendRequest<LearnAnswer | null>(learnRequest, params, token);
    } catch (error) {
      if (token.isCancellationRequested) return null;
      throw error;
    } finally {
      this.progress.delete(ask);
    }
  }

  private async choose({ name }: LearnAnswer, open: readonly ToldLesson[]): Promise<readonly ToldLesson[]> {
    if (open.length === 0) {
      tell(vscode.l10n.t('{0}: all that the records teach stands in the plan.', name));
      return [];
    }
    const items = [
      ...choices(
        open.filter(({ differs }) => differs),
        vscode.l10n.t('Other than the plan says'),
      ),
      ...choices(
        open.filter(({ differs }) => !differs),
        vscode.l10n.t('As the plan says, within what is likely'),
      ),
    ];
    const picked = await vscode.window.showQuickPick(items, {
      canPickMany: true,
      matchOnDescription: true,
      matchOnDetail: true,
      title: vscode.l10n.t('{0}: which of what the records teach is to stand in the plan?', name),
    });
    return (picked ?? []).flatMap(({ lesson }) => lesson ?? []);
  }

  private async take(
    plan: { readonly uri?: string },
    lessons: readonly ToldLesson[],
  ): Promise<readonly string[]> {
    const asked = { ...plan, lessons: lessons.map(({ id, value }) => ({ id, value })) };
    const answer = await this.client.sendRequest<TakeLessonsAnswer | null>(takeLessonsRequest, asked);
    const edit = answer && (await versionedEdit(answer));
    if (!edit || !(await vscode.workspace.applyEdit(edit))) {
      void vscode.window.showWarningMessage(
        vscode.l10n.t('The plan was changed meanwhile. Nothing was taken in; ask again.'),
      );
      return [];
    }
    vscode.window.setStatusBarMessage(
      lessons.length === 1
        ? vscode.l10n.t('One lesson is in the plan now, with its source. Undo takes it back.')
        : vscode.l10n.t(
            '{0} lessons are in the plan now, with their sources. Undo takes them back.',
            lessons.length,
          ),
      10_000,
    );
    return lessons.map(({ id }) => id);
  }
}

/** Under a heading, each lesson with what records say, and what taking it in changes. */
function choices(lessons: readonly ToldLesson[], heading: string): Choice[] {
  if (lessons.length === 0) return [];
  return [
    { label: heading, kind: vscode.QuickPickItemKind.Separator },
    ...lessons.map((lesson) => ({
      label: lesson.id,
      description: translate(lesson.line),
      ...(lesson.effects && { detail: effectsLine(lesson.effects) }),
      picked: lesson.differs,
      lesson,
    })),
  ];
}

/** Effects that are told in a line of the list. */
const MOST_EFFECTS = 3;

export function effectsLine(effects: readonly string[]): string {
  if (effects.length === 0) return vscode.l10n.t('Changes no window, week, order or finding.');
  const told = effects.slice(0, MOST_EFFECTS).map(translate);
  const more = effects.length - told.length;
  return [...told, ...(more > 0 ? [vscode.l10n.t('{0} more', more)] : [])].join(' · ');
}

function tell(text: string): undefined {
  void vscode.window.showInformationMessage(text);
}
