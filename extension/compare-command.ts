import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type CompareAnswer, type CompareParams, requests } from '../src/server/protocol';
import { committedText } from './committed-text';
import type { TimelineView } from './timeline-view';
import { translate } from './translate';

type Against = 'saved' | 'committed' | 'nothing';

interface Choice extends vscode.QuickPickItem {
  readonly against: Against;
}

const choices = (): readonly Choice[] => [
  {
    against: 'saved',
    label: vscode.l10n.t('The last saved text'),
    description: vscode.l10n.t('what unsaved edits change'),
  },
  {
    against: 'committed',
    label: vscode.l10n.t('The last committed text'),
    description: vscode.l10n.t('what has changed since the last commit'),
  },
  { against: 'nothing', label: vscode.l10n.t('Nothing'), description: vscode.l10n.t('the plan alone again') },
];

type Read = (uri: vscode.Uri) => Promise<string | undefined>;

/** Holds the timeline against the plan's saved or committed text. */
export class CompareCommand {
  constructor(
    private readonly client: BaseLanguageClient,
    private readonly timeline: TimelineView,
  ) {}

  /** `against` is for other extensions and tests; people are asked. */
  async run(against?: Against): Promise<void> {
    const wanted = against ?? (await this.ask());
    const files = Object.entries(this.timeline.current?.files ?? {});
    const [, uri] = files[0] ?? [];
    if (wanted === undefined) return;
    if (uri === undefined) {
      tell(
        vscode.l10n.t('There is no timeline to compare. Open the room timeline first, with a plan in front.'),
      );
      return;
    }
    if (wanted === 'nothing') {
      await this.send({ uri });
      return;
    }
    const read = wanted === 'saved' ? savedText : await committedText();
    if (typeof read === 'string') {
      tell(read);
      return;
    }
    const texts = await readAll(files, read);
    if (texts.length === 0) {
      tell(
        wanted === 'saved'
          ? vscode.l10n.t('The plan has not been saved yet.')
          : vscode.l10n.t('The plan has not been committed yet.'),
      );
      return;
    }
    const label = wanted === 'saved' ? 'the last saved text' : 'the last committed text';
    await this.send({ uri, against: { label, files: texts } });
  }

  private async ask(): Promise<Against | undefined> {
    const picked = await vscode.window.showQuickPick(choices(), {
      title: vscode.l10n.t('Compare the timeline with'),
    });
    return picked?.against;
  }

  private async send(params: CompareParams): Promise<void> {
    const answer = await this.client.sendRequest<CompareAnswer | null>(requests.compare, params);
    if (answer && answer.note !== '') vscode.window.setStatusBarMessage(translate(answer.note), 10_000);
    this.timeline.refresh();
  }
}

async function savedText(uri: vscode.Uri): Promise<string | undefined> {
  return new TextDecoder().decode(await vscode.workspace.fs.readFile(uri));
}

/** The files that there are in that state; others are left out. */
async function readAll(
  files: readonly (readonly [path: string, uri: string])[],
  read: Read,
): Promise<{ path: string; text: string }[]> {
  const texts = await Promise.all(
    files.map(async ([path, uri]) => {
      const text = await read(vscode.Uri.parse(uri)).catch(() => undefined);
      return text === undefined ? [] : [{ path, text }];
    }),
  );
  return texts.flat();
}

function tell(text: string): void {
  void vscode.window.showInformationMessage(text);
}
