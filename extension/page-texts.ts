import * as vscode from 'vscode';
import { showMarkdown } from './markdown-page';
import { withCautions } from './translate';

/** Read-only pages of Markdown that exist only here, each kept while it is open. */
export class PageTexts implements vscode.TextDocumentContentProvider, vscode.Disposable {
  private readonly texts = new Map<string, string>();
  private readonly changed = new vscode.EventEmitter<vscode.Uri>();
  readonly onDidChange = this.changed.event;
  private readonly disposables: vscode.Disposable[];

  constructor(private readonly scheme: string) {
    this.disposables = [
      this.changed,
      vscode.workspace.registerTextDocumentContentProvider(scheme, this),
      vscode.workspace.onDidCloseTextDocument(({ uri }) => this.texts.delete(uri.toString())),
    ];
  }

  provideTextDocumentContent(uri: vscode.Uri): string {
    return this.texts.get(uri.toString()) ?? '';
  }

  dispose(): void {
    for (const disposable of this.disposables) disposable.dispose();
  }

  /** Shows a page beside the plan; one with this title that is open already is drawn anew. */
  async show(page: { readonly title: string; readonly markdown: string }): Promise<void> {
    const uri = this.take(page);
    await showMarkdown(uri, true);
  }

  /** Draws a page anew where it is still open; opens none. */
  redraw(page: { readonly title: string; readonly markdown: string }): void {
    if (this.texts.has(this.uriOf(page.title).toString())) this.take(page);
  }

  private take({ title, markdown }: { readonly title: string; readonly markdown: string }): vscode.Uri {
    const uri = this.uriOf(title);
    this.texts.set(uri.toString(), withCautions(markdown));
    this.changed.fire(uri);
    return uri;
  }

  private uriOf(title: string): vscode.Uri {
    return vscode.Uri.from({ scheme: this.scheme, path: `/${title.replace(/[\\/?#]/g, ' ')}.md` });
  }
}
