import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import type { CardName, FromPanel, TextTarget, ToPanel } from '../src/report/timeline-types';
import {
  type AroundAnswer,
  type FigureAnswer,
  type OtherWeekAnswer,
  type OtherWeekParams,
  type PlanComputed,
  type RoomCardAnswer,
  requests,
  type SeasonCardAnswer,
  type TimelineAnswer,
} from '../src/server/protocol';
import { CardLessons } from './card-lessons';
import { CaretRow } from './caret-row';
import { LANGUAGE } from './client-options';
import { pageWords } from './page-words';
import { panelPage } from './panel/page';
import { fromPanel } from './panel-messages';
import { translate, translateFinding, withCautions } from './translate';
import { roomCardIn, seasonCardIn, viewIn } from './view-texts';

export const TIMELINE_VIEW = 'lotwright.roomTimeline';
export const TIMELINE_PANEL = 'lotwright.wideTimeline';

/** A page of the timeline: the side panel's, or the editor area's. A page hears nothing before it says that it listens. */
interface Page {
  readonly webview: vscode.Webview;
  listens: boolean;
}

/** An opening that has not been moved for so long rests, milliseconds. */
const REST = 150;

/** What the view does when its page asks for release weeks. */
export interface ReleaseControl {
  start(): void;
  cancel(): void;
}

/** The room timeline: fetches the view model from the server and hands it to the page, and follows its clicks. */
export class TimelineView implements vscode.WebviewViewProvider, vscode.Disposable {
  private readonly pages = new Set<Page>();
  private wide: vscode.WebviewPanel | undefined;
  private shown: TimelineAnswer | undefined;
  private fetching = false;
  private stale = false;
  private progress: ToPanel = { kind: 'idle' };
  /** A card that is to be opened as soon as a page listens. */
  private wanted: CardName | undefined;
  /** The card that was shown last. */
  private card: RoomCardAnswer['card'] | SeasonCardAnswer['card'] | undefined;
  private readonly disposables: vscode.Disposable[] = [];
  /** The page asks to pin the week of a fill. */
  onPin: (fill: string) => void = () => {};
  /** The page has no plan to show, and the person says how to begin. */
  onBegin: (way: Extract<FromPanel, { kind: 'begin' }>['with']) => void = () => {};
  /** The page asks what to hold the plan against. */
  onCompare: () => void = () => {};
  /** A page hands over the picture it was asked for. */
  onPicture: (format: 'svg' | 'png', data: string | null) => void = () => {};
  /** The page moves a room's opening to a week, `2027-W09`. */
  onMove: (fill: string, week: string) => void = () => {};
  /** The page takes what was offered around a week. */
  onPinAround: (fill: string, week: string) => void = () => {};
  private readonly caret: CaretRow;
  readonly lessons: CardLessons;
  /** Waits until an opening rests over a week before what others could do is worked out. */
  private resting: ReturnType<typeof setTimeout> | undefined;

  constructor(
    private readonly dist: vscode.Uri,
    private readonly client: BaseLanguageClient,
    computed: vscode.Event<PlanComputed>,
    private readonly release: ReleaseControl,
    private readonly log: vscode.LogOutputChannel,
  ) {
    this.lessons = new CardLessons(client, log);
    this.caret = new CaretRow(client, () => this.post({ kind: 'caret', row: this.caret.row }), log);
    this.disposables.push(
      computed(({ root }) => {
        if (this.shown === undefined || this.shown.root === root) this.refresh();
      }),
      vscode.window.onDidChangeActiveTextEditor((editor) => {
        if (editor?.document.languageId === LANGUAGE) this.refresh();
        this.caret.follow(editor);
      }),
      this.caret,
    );
  }

  /** The view model that the page shows now. */
  get current(): TimelineAnswer | undefined {
    return this.anyListens ? this.shown : undefined;
  }

  /** The card that a page asked for last. */
  get currentCard(): RoomCardAnswer['card'] | SeasonCardAnswer['card'] | undefined {
    return this.anyListens ? this.card : undefined;
  }

  /** The row in whose text the caret stands. */
  get caretRow(): string | undefined {
    return this.caret.row ?? undefined;
  }

  /** Opens a card on the pages, at once or as soon as there is one. */
  showCard(card: CardName): void {
    if (!this.anyListens) this.wanted = card;
    else this.post({ kind: 'showCard', card });
  }

  resolveWebviewView(view: vscode.WebviewView): void {
    const page = this.attach(view.webview);
    view.onDidDispose(() => this.pages.delete(page));
    view.onDidChangeVisibility(() => {
      // A hidden page is gone; the one that is made when the view is shown again says so itself.
      if (!view.visible) page.listens = false;
    });
  }

  /** The same view in the editor area, where there is width for the whole season. */
  openWide(): void {
    if (this.wide) {
      this.wide.reveal();
      return;
    }
    const beside = vscode.window.activeTextEditor ? vscode.ViewColumn.Beside : vscode.ViewColumn.One;
    this.adopt(vscode.window.createWebviewPanel(TIMELINE_PANEL, vscode.l10n.t('Room timeline'), beside));
  }

  /** Takes over a page of the editor area: one made now, or one that the editor brings back after it was closed. */
  adopt(panel: vscode.WebviewPanel): void {
    this.wide = panel;
    const page = this.attach(panel.webview);
    panel.onDidDispose(() => {
      this.pages.delete(page);
      if (this.wide === panel) this.wide = undefined;
    });
    panel.onDidChangeViewState(() => {
      if (!panel.visible) page.listens = false;
    });
  }

  private get anyListens(): boolean {
    return [...this.pages].some(({ listens }) => listens);
  }

  private attach(webview: vscode.Webview): Page {
    const page: Page = { webview, listens: false };
    this.pages.add(page);
    webview.options = { enableScripts: true, localResourceRoots: [this.dist] };
    webview.onDidReceiveMessage((message: unknown) => this.receive(page, fromPanel(message)));
    webview.html = panelPage({
      cspSource: webview.cspSource,
      nonce: nonce(),
      scriptUri: webview.asWebviewUri(vscode.Uri.joinPath(this.dist, 'panel.js')).toString(),
      styleUri: webview.asWebviewUri(vscode.Uri.joinPath(this.dist, 'panel.css')).toString(),
      ...pageWords(),
    });
    return page;
  }

  /** Asks one of the pages for a picture; false where none is shown. */
  askPicture(format: 'svg' | 'png'): boolean {
    const page = [...this.pages].findLast(({ listens }) => listens);
    if (!page || !this.shown) return false;
    void page.webview.postMessage({ kind: 'makePicture', format } satisfies ToPanel);
    return true;
  }

  /** Tells the page how far the search for release weeks is. */
  showProgress(message: ToPanel): void {
    this.progress = message;
    this.post(message);
  }

  /** Fetches the view model anew; asked for again meanwhile, once more after that. */
  refresh(): void {
    if (!this.anyListens) return;
    this.stale = true;
    if (!this.fetching) void this.fetch();
  }

  dispose(): void {
    clearTimeout(this.resting);
    for (const disposable of this.disposables) disposable.dispose();
  }

  private async fetch(): Promise<void> {
    this.fetching = true;
    try {
      while (this.stale) {
        this.stale = false;
        const answer = await this.client.sendRequest<TimelineAnswer | null>(requests.timeline, this.asks());
        this.shown = answer ?? undefined;
        if (!answer) {
          this.post({ kind: 'noPlan', hasFolder: vscode.workspace.workspaceFolders !== undefined });
          continue;
        }
        const view = viewIn(answer.view, translate, translateFinding);
        this.post({ kind: 'view', view, older: !answer.isSettled });
      }
    } catch (error) {
      this.log.error(`The room timeline could not be computed: ${String(error)}`);
    } finally {
      this.fetching = false;
    }
  }

  /** The plan of the document in front; with none in front, the plan that is shown already. */
  private asks(): { uri?: string } {
    const document = vscode.window.activeTextEditor?.document;
    if (document?.languageId === LANGUAGE)
      return { uri: this.client.code2ProtocolConverter.asUri(document.uri) };
    const [uri] = Object.values(this.shown?.files ?? {});
    return uri === undefined ? {} : { uri };
  }

  private receive(page: Page, message: FromPanel | undefined): void {
    switch (message?.kind) {
      case 'ready':
        page.listens = true;
        void page.webview.postMessage(this.progress);
        if (this.shown)
          void page.webview.postMessage({
            kind: 'view',
            view: viewIn(this.shown.view, translate, translateFinding),
            older: !this.shown.isSettled,
          } satisfies ToPanel);
        if (this.wanted)
          void page.webview.postMessage({ kind: 'showCard', card: this.wanted } satisfies ToPanel);
        this.wanted = undefined;
        this.refresh();
        void page.webview.postMessage({ kind: 'caret', row: this.caret.row } satisfies ToPanel);
        this.caret.follow();
        return;
      case 'askCard':
        void this.tellCard(page, message.card);
        return;
      case 'askEffects':
        void this.lessons.tellEffects(page.webview, this.shownUri(), message.lesson);
        return;
      case 'takeLesson':
        this.lessons.take(this.shownUri(), message.lesson);
        return;
      case 'askFigure':
        void this.tellFigure(page, message.figure);
        return;
      case 'begin':
        this.onBegin(message.with);
        return;
      case 'compare':
        this.onCompare();
        return;
      case 'reveal':
        void this.reveal(message.target);
        return;
      case 'pin':
        this.onPin(message.fill);
        return;
      case 'askWeek':
        void this.tellWeek(message.fill, message.week);
        return;
      case 'pinAround': {
        const week = this.shown?.view.weeks[message.week];
        if (week !== undefined) this.onPinAround(message.fill, week);
        return;
      }
      case 'moveTo': {
        const week = this.shown?.view.weeks[message.week];
        if (week !== undefined) this.onMove(message.fill, week);
        return;
      }
      case 'picture':
        this.onPicture(message.format, message.data);
        return;
      case 'computeRelease':
        this.release.start();
        return;
      case 'cancelRelease':
        this.release.cancel();
        return;
    }
  }

  private async tellWeek(fill: string, index: number | undefined): Promise<void> {
    const week = index === undefined ? undefined : this.shown?.view.weeks[index];
    const [uri] = Object.values(this.shown?.files ?? {});
    const params: OtherWeekParams = {
      fill,
      ...(uri !== undefined && { uri }),
      ...(week !== undefined && { week }),
    };
    clearTimeout(this.resting);
    if (index !== undefined) this.resting = setTimeout(() => void this.tellAround(params, index), REST);
    try {
      const answer = await this.client.sendRequest<OtherWeekAnswer | null>(requests.otherWeek, params);
      if (answer)
        this.post({
          kind: 'otherWeek',
          fill,
          ...(index !== undefined && { week: index }),
          ...answer,
          text: translate(answer.text),
        });
    } catch (error) {
      this.log.error(`What another week would do could not be computed: ${String(error)}`);
    }
  }

  private async tellAround(params: OtherWeekParams, week: number): Promise<void> {
    try {
      const answer = await this.client.sendRequest<AroundAnswer | null>(requests.aroundWeek, params);
      if (answer)
        this.post({ kind: 'around', fill: params.fill, week, ...answer, text: translate(answer.text) });
    } catch (error) {
      this.log.error(`What others could do could not be computed: ${String(error)}`);
    }
  }

  /** A document of the plan that is shown. */
  private shownUri(): { uri?: string } {
    const [uri] = Object.values(this.shown?.files ?? {});
    return uri === undefined ? {} : { uri };
  }

  private async tellCard({ webview }: Page, card: CardName): Promise<void> {
    try {
      if (card.of === 'season') {
        const answer = await this.client.sendRequest<SeasonCardAnswer | null>(
          requests.seasonCard,
          this.shownUri(),
        );
        this.card = answer?.card;
        const told = answer ? seasonCardIn(answer.card, translate, translateFinding) : null;
        void webview.postMessage({
          kind: 'seasonCard',
          card: told,
          older: answer?.isSettled === false,
        } satisfies ToPanel);
        return;
      }
      const { key } = card;
      const params = { ...this.shownUri(), key };
      const answer = await this.client.sendRequest<RoomCardAnswer | null>(requests.roomCard, params);
      this.card = answer?.card;
      const told = answer ? roomCardIn(answer.card, translate, translateFinding) : null;
      void webview.postMessage({
        kind: 'roomCard',
        key,
        card: told,
        older: answer?.isSettled === false,
      } satisfies ToPanel);
      void this.lessons.tell(webview, this.shownUri(), key);
    } catch (error) {
      this.log.error(`The card could not be computed: ${String(error)}`);
    }
  }

  private async tellFigure({ webview }: Page, figure: string): Promise<void> {
    try {
      const params = { ...this.shownUri(), figure };
      const answer = await this.client.sendRequest<FigureAnswer | null>(requests.explainFigure, params);
      if (answer)
        void webview.postMessage({
          kind: 'explained',
          figure,
          title: answer.title,
          text: withCautions(answer.text),
        } satisfies ToPanel);
    } catch (error) {
      this.log.error(`How the figure came about could not be told: ${String(error)}`);
    }
  }

  private async reveal({ file, start, end }: TextTarget): Promise<void> {
    const uri = this.shown?.files[file];
    if (uri === undefined) return;
    const document = await vscode.workspace.openTextDocument(vscode.Uri.parse(uri));
    const selection = new vscode.Range(document.positionAt(start), document.positionAt(end));
    await vscode.window.showTextDocument(document, { selection });
  }

  private post(message: ToPanel): void {
    for (const { webview, listens } of this.pages) if (listens) void webview.postMessage(message);
  }
}

/** An unguessable word that marks the page's own script. */
function nonce(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(24));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
