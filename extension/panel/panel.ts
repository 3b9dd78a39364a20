import type {
  CardName,
  TextTarget,
  TimelineRow,
  TimelineView,
  ToPanel,
} from '../../src/report/timeline-types';
import { arranged } from './arrange';
import { ArrangeBar } from './arrange-bar';
import { Cards, isOfCards } from './cards';
import type { Channel } from './channel';
import { Chart } from './chart';
import { Detail } from './detail';
import type { Tell } from './dock';
import { element } from './dom';
import { drawKey } from './draw-key';
import { keyList } from './key-list';
import { pageKey, rowKey } from './keys';
import { patterns } from './patterns';
import { timelinePicture } from './picture';
import { pngOf } from './png';
import { firstState, type Part, restoreState, TALL_PARTS, type ViewState, withFolded } from './state';
import { caretInTable, showTables } from './table';
import { firstSentence } from './texts';
import { Toolbar } from './toolbar';
import { Welcome } from './welcome';
import { filled, say, useWords, weekName } from './words';

const SAVE_AFTER = 150;
const NARROW = 560;
const LOW = 600;
/** A page that has height for every band of equipment beneath its rooms. */
const TALL = 1100;

/** Fills the page and keeps it in step with what the channel says. */
export function startPanel(channel: Channel, page: HTMLElement): void {
  useWords(page.dataset.words, document.documentElement.lang);
  new Panel(channel, page).start();
}

class Panel {
  private state: ViewState;
  private view: TimelineView | undefined;
  private caret: string | null = null;
  private saving: number | undefined;
  /** What is pointed at; it is told anew from each new view. */
  private tell: Tell | undefined;
  private readonly toolbar: Toolbar;
  private readonly chart: Chart;
  private readonly cards: Cards;
  private readonly arrangeBar = new ArrangeBar((arrangement) =>
    this.change({ ...this.state, ...arrangement }, true),
  );
  private readonly tables = element('div', { class: 'tables' });
  private readonly welcome = new Welcome((way) => this.channel.send({ kind: 'begin', with: way }));
  private readonly detail = new Detail({
    askWeek: (fill, week) =>
      this.channel.send({ kind: 'askWeek', fill, ...(week !== undefined && { week }) }),
    pinAround: (fill, week) => {
      this.chart.letGo();
      this.chart.focus();
      this.channel.send({ kind: 'pinAround', fill, week });
    },
    pin: (row) => this.pin(row),
    openCard: ({ key }) => this.openCard({ of: 'room', key }),
    leave: () => this.chart.focus(),
  });
  private readonly status = element('p', { class: 'unseen', role: 'status' });
  private readonly key: HTMLDetailsElement;
  private readonly caution = element('details', { class: 'caution' });

  constructor(
    private readonly channel: Channel,
    private readonly page: HTMLElement,
  ) {
    // A small page has better uses for its height than the key.
    const small = page.clientWidth <= NARROW || window.innerHeight <= LOW;
    const short: readonly Part[] = [
      ...(small ? (['key'] as const) : []),
      ...(window.innerHeight < TALL ? TALL_PARTS : []),
    ];
    const first = short.reduce((state, part) => withFolded(state, part, true), firstState);
    this.state = restoreState(channel.savedState(), first);
    this.toolbar = new Toolbar({
      compute: () => channel.send({ kind: 'computeRelease' }),
      cancel: () => channel.send({ kind: 'cancelRelease' }),
      toggleTable: () => this.toggleTable(),
      toggleSeason: () => this.openCard(this.state.open?.of === 'season' ? undefined : { of: 'season' }),
      compare: () => channel.send({ kind: 'compare' }),
      step: (direction) => this.chart.step(direction),
      fit: () => this.zoom(null),
    });
    this.chart = new Chart({
      reveal: (target) => this.reveal(target),
      pin: (row) => this.pin(row),
      openCard: ({ key }) => this.openCard({ of: 'room', key }),
      hovered: (row) => this.detail.why.prepare(row, this.view?.revision),
      held: (row, week) => this.held(row, week),
      dropped: (row, week) => {
        this.detail.around.drop();
        this.held(row, undefined);
        this.channel.send({ kind: 'moveTo', fill: row.key, week });
        this.announce(filled(say.isPinnedTo, row.room, weekName(this.view?.weeks[week])));
      },
      choose: (row) => {
        this.detail.around.clear();
        this.change({ ...this.state, row });
        this.describe(this.tell);
        this.detail.why.ask(this.chosen);
      },
      zoom: (weekWidth) => this.zoom(weekWidth),
      scrolled: (scrollWeek, scrollTop) => this.change({ ...this.state, scrollWeek, scrollTop }),
      pickSeries: (series) => this.change({ ...this.state, series }, true),
      fold: (part, folded) => this.change(withFolded(this.state, part, folded), true),
      describe: (tell) => this.describe(tell),
      announce: (text) => this.announce(text),
    });
    this.cards = new Cards({
      send: (message) => channel.send(message),
      reveal: (target) => this.reveal(target),
      open: (card) => this.openCard(card),
      announce: (text) => this.announce(text),
      keyAfter: (key, rows) => this.keyAfter(key, rows),
    });
    this.key = element('details', { class: 'legend' }, element('summary', {}, say.key), drawKey(), keyList());
  }

  start(): void {
    this.page.replaceChildren(
      patterns(),
      this.toolbar.element,
      this.arrangeBar.element,
      this.chart.element,
      this.tables,
      this.cards.element,
      this.welcome.element,
      this.detail.element,
      this.key,
      this.caution,
      this.status,
    );
    this.page.dataset.state = 'waiting';
    this.arrange();
    this.folds(this.key, 'key');
    this.folds(this.caution, 'caution');
    document.addEventListener('keydown', (event) => {
      if (event.target instanceof HTMLSelectElement || event.target instanceof HTMLInputElement || !this.view)
        return;
      const action = pageKey(event);
      if (action) {
        event.preventDefault();
        if (action.do === 'around') this.detail.around.take();
        else if (action.do === 'find') this.arrangeBar.focus();
        else if (action.do === 'season')
          this.openCard(this.state.open?.of === 'season' ? undefined : { of: 'season' });
        else this.toggleTable();
        return;
      }
      const row = this.rowOfTable(event.target);
      if (row && rowKey(event)?.do === 'pin') this.pin(row);
      else if (row && rowKey(event)?.do === 'card') this.openCard({ of: 'room', key: row.key });
    });
    window.addEventListener('pagehide', () => this.save());
    // Coming to the view by keys lands on its rooms, not on the empty page.
    window.addEventListener('focus', () => {
      if (document.activeElement === document.body && this.state.mode === 'timeline' && !this.state.open)
        this.chart.focus();
    });
    this.channel.listen((message) => this.receive(message));
    this.channel.send({ kind: 'ready' });
  }

  private receive(message: ToPanel): void {
    if (message.kind === 'otherWeek') {
      const said = this.detail.why.take(message);
      if (said !== undefined) this.announce(said);
      return;
    }
    if (message.kind === 'around') {
      const said = this.detail.around.show(message);
      if (said !== undefined) this.announce(said);
      return;
    }
    if (message.kind === 'makePicture') {
      void this.makePicture(message.format);
      return;
    }
    if (message.kind === 'showCard') this.openCard(message.card);
    else if (isOfCards(message)) this.cards.receive(message);
    else if (message.kind === 'caret') {
      this.caret = message.row;
      this.chart.caretIn(message.row);
      caretInTable(this.tables, message.row);
    } else if (message.kind === 'noPlan') {
      this.view = undefined;
      this.welcome.noPlan(message.hasFolder);
      this.arrange();
    } else if (message.kind === 'view') this.receiveView(message.view, message.older === true);
    else this.toolbar.progress(message);
  }

  private receiveView(view: TimelineView, isOlder: boolean): void {
    const same = this.view && (this.view.plan ?? this.view.title) === (view.plan ?? view.title);
    if (same && this.view && view.revision < this.view.revision) return;
    this.view = view;
    this.toolbar.isOlder = isOlder;
    this.draw();
  }

  private async makePicture(format: 'svg' | 'png'): Promise<void> {
    const svg = this.view && timelinePicture(arranged(this.view, this.state), this.state);
    const data = format === 'svg' ? svg : svg && (await pngOf(svg).catch(() => undefined));
    this.channel.send({ kind: 'picture', format, data: data ?? null });
  }

  private draw(): void {
    const { view, state } = this;
    if (!view) return;
    this.arrange();
    this.toolbar.show(view, state);
    const [danger, rest] = firstSentence(view.caution);
    this.caution.replaceChildren(element('summary', {}, danger), rest);
    if (view.empty !== undefined) {
      this.welcome.say(view.empty);
      return;
    }
    this.describe(this.tell);
    this.detail.why.ask(this.chosen);
    const shown = arranged(view, state);
    this.arrangeBar.show(state, shown.rows.length, view.rows.length, view.against !== undefined);
    this.cards.show(view, state, this.toolbar.isOlder);
    if (state.open) return;
    if (state.mode === 'timeline') this.chart.show(shown, state);
    else
      showTables(this.tables, shown, state, {
        reveal: (target) => this.reveal(target),
        pickSeries: (series) => this.change({ ...this.state, series }, true),
        caret: this.caret,
      });
  }

  /** Shows the part that there is something to show in. */
  private arrange(): void {
    const { view, state } = this;
    const drawn = view !== undefined && view.empty === undefined;
    this.page.dataset.state = view === undefined ? 'waiting' : drawn ? state.mode : 'empty';
    this.welcome.element.hidden = drawn;
    this.toolbar.element.hidden = view === undefined;
    const rooms = drawn && !state.open;
    this.cards.element.hidden = !drawn || !state.open;
    this.arrangeBar.element.hidden = !rooms;
    this.chart.element.hidden = !rooms || state.mode === 'table';
    this.tables.hidden = !rooms || state.mode !== 'table';
    this.detail.element.hidden = !rooms || state.mode === 'table';
    this.key.hidden = this.detail.element.hidden;
    this.caution.hidden = view === undefined;
  }

  private change(state: ViewState, redraw = false): void {
    this.state = state;
    window.clearTimeout(this.saving);
    this.saving = window.setTimeout(() => this.save(), SAVE_AFTER);
    if (redraw) this.draw();
  }

  private save(): void {
    window.clearTimeout(this.saving);
    this.channel.saveState(this.state);
  }

  private zoom(weekWidth: number | null): void {
    this.change({ ...this.state, weekWidth });
    this.chart.zoomTo(this.state);
  }

  private toggleTable(): void {
    const mode = this.state.mode === 'table' ? 'timeline' : 'table';
    if (this.state.open) {
      // A card has tables of its own.
      this.change({ ...this.state, mode }, true);
      return;
    }
    // What is hidden loses the focus, but only once the page is drawn.
    const focused = document.activeElement;
    const had = [this.chart.element, this.tables].some((part) => part.contains(focused));
    this.change({ ...this.state, mode }, true);
    if (mode === 'timeline') {
      this.chart.restoreScroll(this.state);
      if (had || focused === document.body) this.chart.focus();
    } else if (had) this.tables.querySelector<HTMLElement>('.table')?.focus();
    this.announce(mode === 'table' ? say.tableShown : say.timelineShown);
  }

  private folds(details: HTMLDetailsElement, part: Part): void {
    details.open = !this.state.folded.includes(part);
    details.addEventListener('toggle', () => this.change(withFolded(this.state, part, !details.open)));
  }

  private reveal(target: TextTarget): void {
    this.channel.send({
      kind: 'reveal',
      target: { file: target.file, start: target.start, end: target.end },
    });
  }

  private get chosen(): TimelineRow | undefined {
    return this.view?.rows.find(({ key }) => key === this.state.row);
  }

  private pin(row: TimelineRow): void {
    if (row.pin !== undefined) this.channel.send({ kind: 'pin', fill: row.key });
    else this.announce(filled(row.opens?.pinned ? say.pinnedAlready : say.nothingToPin, row.room));
  }

  /** While an opening is held, what it would do is told in place of why it is where it is. */
  private held(row: TimelineRow, week: number | undefined): void {
    const { around, why } = this.detail;
    around.hold(row.key, week);
    const label = week === undefined ? undefined : this.view?.weeks[week];
    if (week === undefined || label === undefined) why.ask(this.chosen);
    else {
      why.ask(row, week);
      this.announce(`${row.room}: ${weekName(label)}`);
    }
    this.detail.hold(row, label);
    this.describe(this.tell);
  }

  private rowOfTable(target: EventTarget | null): TimelineRow | undefined {
    const line = target instanceof Element ? target.closest<HTMLElement>('tr[data-key]') : null;
    return this.view?.rows.find(({ key }) => key === line?.dataset.key);
  }

  /** Opens a card in place of the rooms; none goes back to them, to the room whose card it was. */
  private openCard(card: CardName | undefined): void {
    const { open } = this.state;
    const row = card?.of === 'room' ? card.key : open?.of === 'room' ? open.key : this.state.row;
    this.change({ ...this.state, open: card ?? null, row }, true);
    if (!this.view || card) return;
    if (this.state.mode === 'timeline') {
      this.chart.restoreScroll(this.state);
      this.chart.focus();
    } else this.tables.querySelector<HTMLElement>('.table')?.focus();
    this.announce(say.allRoomsShown);
  }

  private keyAfter(key: string, rows: number): string | undefined {
    const shown = this.view ? arranged(this.view, this.state).rows : [];
    const at = shown.findIndex((row) => row.key === key);
    return shown[at + rows]?.key;
  }

  private describe(tell: Tell | undefined): void {
    this.tell = tell;
    this.detail.show(this.view, this.chosen, tell);
  }

  private announce(text: string): void {
    this.status.textContent = text;
  }
}
