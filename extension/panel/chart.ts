import type { TextTarget, TimelineRow, TimelineView } from '../../src/report/timeline-types';
import { groupOf } from './arrange';
import { Dock, type DockHost } from './dock';
import { element } from './dom';
import { drawAxis, drawGrid } from './draw-axis';
import { type KeyAction, rowKey } from './keys';
import { Mover, type MoverHost } from './mover';
import { Rows } from './rows';
import { type ViewState, zoomed } from './state';
import { filled, say, weekName } from './words';

export interface ChartHost extends DockHost, MoverHost {
  choose(key: string): void;
  reveal(target: TextTarget): void;
  pin(row: TimelineRow): void;
  openCard(row: TimelineRow): void;
  zoom(weekWidth: number | null): void;
  scrolled(scrollWeek: number, scrollTop: number): void;
  announce(text: string): void;
}

/** The scrolling chart: axis on top, names at the left, demand and scrubbers at the bottom, all of them staying. */
export class Chart {
  readonly element = element('div', { class: 'chart' });
  private readonly canvas = element('div', { class: 'canvas' });
  private readonly corner = element('div', { class: 'name corner' });
  private readonly axis = element('div', { class: 'axis' }, this.corner);
  private readonly rows = new Rows();
  private readonly dock: Dock;
  private readonly mover: Mover;
  private grid: Element | undefined;
  private view: TimelineView | undefined;
  /** Whether the pointer is over the rows, and no key has been pressed since. */
  private isPointedAt = false;
  private labelledFor = 0;

  constructor(private readonly host: ChartHost) {
    this.dock = new Dock(host);
    this.mover = new Mover(
      this.rows.list,
      (target) => this.rowAt(target),
      () => this.view,
      host,
    );
    this.corner.append(
      element('span', { class: 'room' }, say.room),
      element('span', { class: 'varieties' }, say.variety),
      element('span', { class: 'bins' }, say.bins),
    );
    this.canvas.append(this.axis, this.rows.list, this.dock.element);
    this.element.append(this.canvas);
    this.rows.watch(this.element);
    this.listen();
    new ResizeObserver(() => {
      this.resized();
      // What is told beneath takes more lines for one room than for another: the room itself stays in sight. While another
      // is pointed at nothing moves, or it would be gone from under the pointer.
      const key = this.rows.focused;
      if (key !== undefined && !this.isPointedAt) this.uncover(key);
    }).observe(this.element);
  }

  show(view: TimelineView, state: ViewState): void {
    const first = this.view === undefined;
    // What was held was held in another plan.
    this.mover.cancel();
    this.view = view;
    this.scaleTo(state.weekWidth);
    const groups = view.rows.map((row) => groupOf(row, state.order, view.months));
    this.rows.show(view.rows, view.weeks.length, state.row, groups);
    this.dock.show(view, state);
    const grid = drawGrid(view);
    this.grid?.remove();
    this.grid = grid;
    this.canvas.prepend(grid);
    this.resized(true);
    if (first) this.restoreScroll(state);
  }

  /** Where the page was before it was hidden. */
  restoreScroll({ scrollWeek, scrollTop }: ViewState): void {
    this.element.scrollTo({ left: scrollWeek * this.weekWidth, top: scrollTop, behavior: 'instant' });
  }

  /** Pixels a week as drawn. */
  get weekWidth(): number {
    const weeks = this.view?.weeks.length ?? 0;
    return weeks === 0 ? 0 : (this.canvas.clientWidth - this.corner.offsetWidth) / weeks;
  }

  step(direction: 1 | -1): void {
    this.host.zoom(zoomed(this.weekWidth, direction));
  }

  /** Zooms about the week in the middle of the view. */
  zoomTo(state: ViewState): void {
    const shown = this.element.clientWidth - this.corner.offsetWidth;
    const middle = (this.element.scrollLeft + shown / 2) / this.weekWidth;
    this.scaleTo(state.weekWidth);
    this.resized(true);
    this.element.scrollLeft = middle * this.weekWidth - shown / 2;
  }

  /** Marks the row in whose text the caret stands, and brings it into view unless the person is in this page. */
  caretIn(key: string | null): void {
    const moved = this.rows.caretIn(key ?? undefined);
    if (key !== null && moved && !document.hasFocus()) this.uncover(key);
  }

  /** Puts an opening that is held back where it was. */
  letGo(): void {
    this.mover.cancel();
  }

  focus(): void {
    this.rows.focus();
  }

  private scaleTo(weekWidth: number | null): void {
    const { style } = this.canvas;
    style.setProperty('--weeks', String(this.view?.weeks.length ?? 1));
    if (weekWidth === null) style.removeProperty('--week');
    else style.setProperty('--week', `${weekWidth}px`);
    this.canvas.classList.toggle('fit', weekWidth === null);
  }

  /** Labels stand as far apart as the width asks for; the dock stays at the bottom only where it leaves room for rows. */
  private resized(anyway = false): void {
    if (!this.view) return;
    const width = this.weekWidth;
    if (anyway || Math.abs(width - this.labelledFor) > 0.2) {
      this.labelledFor = width;
      this.axis.replaceChildren(this.corner, drawAxis(this.view, width));
    }
    const { clientHeight } = this.element;
    this.element.dataset.dock = this.dock.staysIn(clientHeight);
  }

  private listen(): void {
    const { list } = this.rows;
    list.addEventListener('click', (event) => {
      const row = this.rowAt(event.target);
      if (!row || this.mover.takeClick()) return;
      this.take(row.key);
      const onOpening = event.target instanceof Element && event.target.closest('[data-mark="opens"]');
      const week = event.target instanceof Element && markedWeek(event.target);
      const mark = row.marks?.find((one) => one.week === week);
      this.host.reveal(mark?.target ?? ((onOpening && row.opens?.target) || row.target));
    });
    list.addEventListener('focusin', (event) => {
      const row = this.rowAt(event.target);
      if (row) this.describeRow(row.key);
    });
    list.addEventListener('pointerover', (event) => {
      this.isPointedAt = true;
      const key = this.rowAt(event.target)?.key;
      const week = event.target instanceof Element ? markedWeek(event.target) : undefined;
      const confidence = event.target instanceof Element ? markedConfidence(event.target) : undefined;
      if (confidence !== undefined)
        this.host.describe((view) => confidenceText(rowWith(view, key), confidence));
      else if (week === undefined) this.describeRow(key);
      else this.host.describe((view) => markText(rowWith(view, key), week));
    });
    list.addEventListener('pointerleave', () => {
      this.isPointedAt = false;
      this.host.describe(undefined);
    });
    list.addEventListener('keydown', (event) => {
      this.isPointedAt = false;
      const action = rowKey(event);
      if (!action) return;
      // The editor would zoom its whole window, or scroll.
      event.preventDefault();
      event.stopPropagation();
      this.act(action);
    });
    this.element.addEventListener('scroll', () => {
      if (this.weekWidth > 0)
        this.host.scrolled(this.element.scrollLeft / this.weekWidth, this.element.scrollTop);
    });
  }

  private act(action: KeyAction): void {
    const row = rowWith(this.view, this.rows.current);
    switch (action.do) {
      case 'move':
        this.take(this.rows.keyAfter(action.rows));
        break;
      case 'first':
        this.take(this.rows.keyAfter(Number.NEGATIVE_INFINITY));
        break;
      case 'last':
        this.take(this.rows.keyAfter(Number.POSITIVE_INFINITY));
        break;
      case 'scroll':
        this.scrollBy(action.weeks);
        break;
      case 'zoom':
        this.step(action.direction);
        break;
      case 'fit':
        this.host.zoom(null);
        break;
      case 'moveOpening': {
        const drawn = row && this.rows.element(row.key);
        if (drawn) this.mover.step(row, drawn, action.weeks);
        break;
      }
      case 'cancel':
        this.mover.cancel();
        break;
      case 'reveal':
        if (this.mover.drop()) break;
        if (row) this.host.reveal(row.target);
        break;
      case 'revealOpening':
        if (row) this.host.reveal(row.opens?.target ?? row.target);
        break;
      case 'card':
        if (row) this.host.openCard(row);
        break;
      case 'pin':
        if (row) this.host.pin(row);
    }
  }

  private describeRow(key: string | undefined): void {
    this.host.describe(key === undefined ? undefined : (view) => rowWith(view, key)?.description);
  }

  private take(key: string | undefined): void {
    if (key === undefined) return;
    this.rows.choose(key);
    this.rows.focus();
    // What is told of it beneath may take a line more than before, and the chart one less.
    this.host.choose(key);
    this.uncover(key);
  }

  /** Scrolls so that the row is not behind axis or dock. */
  private uncover(key: string): void {
    const row = this.rows.element(key);
    if (!row) return;
    const box = row.getBoundingClientRect();
    const top = this.axis.getBoundingClientRect().bottom;
    const stays = this.element.dataset.dock !== 'none';
    const bottom = stays ? this.dock.top : this.element.getBoundingClientRect().bottom;
    if (box.top < top) this.element.scrollTop -= top - box.top;
    else if (box.bottom > bottom) this.element.scrollTop += box.bottom - bottom;
  }

  private scrollBy(weeks: number): void {
    const width = this.weekWidth;
    this.element.scrollLeft += weeks * width;
    const shown = (this.element.clientWidth - this.corner.offsetWidth) / width;
    const first = Math.round(this.element.scrollLeft / width);
    const labels = this.view?.weeks ?? [];
    const last = Math.min(labels.length - 1, Math.round(first + shown) - 1);
    this.host.announce(filled(say.weeksInView, weekName(labels[first]), weekName(labels[last])));
  }

  private rowAt(target: EventTarget | null): TimelineRow | undefined {
    const key = target instanceof Element ? target.closest<HTMLElement>('.row')?.dataset.key : undefined;
    return rowWith(this.view, key);
  }
}

function rowWith(view: TimelineView | undefined, key: string | undefined): TimelineRow | undefined {
  return view?.rows.find((row) => row.key === key);
}

/** The week of the finding that is drawn there. */
function markedWeek(target: Element): number | undefined {
  const week = target.closest<SVGElement>('[data-mark="finding"]')?.dataset.week;
  return week === undefined ? undefined : Number(week);
}

/** The confidence that a part of a window stands for. */
function markedConfidence(target: Element): number | undefined {
  const confidence = target.closest<SVGElement>('[data-mark="confidence"]')?.dataset.confidence;
  return confidence === undefined ? undefined : Number(confidence);
}

function confidenceText(row: TimelineRow | undefined, confidence: number): string | undefined {
  return row?.byConfidence?.find((step) => step.confidence === confidence)?.text ?? row?.description;
}

function markText(row: TimelineRow | undefined, week: number): string | undefined {
  const texts = (row?.marks ?? []).filter((mark) => mark.week === week).map(({ text }) => text);
  return row && texts.length > 0 ? `${filled(say.roomNamed, row.room)}: ${texts.join(' ')}` : undefined;
}
