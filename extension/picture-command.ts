import * as vscode from 'vscode';
import type { TimelineView } from './timeline-view';

type Format = 'svg' | 'png';

/** What the command would ask; given by other extensions and tests. */
export interface PictureOptions {
  readonly to: string;
  readonly format: Format;
}

const WAIT = 15_000;

/** Saves the timeline, as it is arranged on its page, as a picture. */
export class PictureCommand {
  private answered: ((data: string | null) => void) | undefined;

  constructor(private readonly timeline: TimelineView) {
    timeline.onPicture = (_format, data) => this.answered?.(data);
  }

  async run(given?: PictureOptions): Promise<void> {
    const to = given ? vscode.Uri.parse(given.to) : await placeFor();
    if (!to) return;
    const format: Format = given?.format ?? (to.path.toLowerCase().endsWith('.png') ? 'png' : 'svg');
    const data = await this.ask(format);
    if (data === undefined) {
      void vscode.window.showInformationMessage(
        vscode.l10n.t(
          'There is no timeline to make a picture of. Open the room timeline first, with a plan in front.',
        ),
      );
      return;
    }
    if (data === null) {
      void vscode.window.showErrorMessage(
        vscode.l10n.t('The picture could not be drawn. Try SVG in place of PNG.'),
      );
      return;
    }
    const bytes = format === 'svg' ? new TextEncoder().encode(data) : bytesOf(data);
    await vscode.workspace.fs.writeFile(to, bytes);
    if (!given)
      vscode.window.setStatusBarMessage(
        vscode.l10n.t('Saved {0}.', vscode.workspace.asRelativePath(to)),
        10_000,
      );
  }

  /** Undefined where no page is shown that could draw it. */
  private ask(format: Format): Promise<string | null | undefined> {
    return new Promise((resolve) => {
      const timer = setTimeout(() => resolve(null), WAIT);
      this.answered = (data) => {
        clearTimeout(timer);
        this.answered = undefined;
        resolve(data);
      };
      if (this.timeline.askPicture(format)) return;
      clearTimeout(timer);
      this.answered = undefined;
      resolve(undefined);
    });
  }
}

async function placeFor(): Promise<vscode.Uri | undefined> {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  return vscode.window.showSaveDialog({
    ...(folder && { defaultUri: vscode.Uri.joinPath(folder.uri, 'timeline.svg') }),
    filters: {
      [vscode.l10n.t('Scalable picture')]: ['svg'],
      [vscode.l10n.t('Picture of dots')]: ['png'],
    },
    saveLabel: vscode.l10n.t('Save picture'),
  });
}

function bytesOf(base64: string): Uint8Array {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}
