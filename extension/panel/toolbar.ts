import type { TimelineView, ToPanel } from '../../src/report/timeline-types';
import { element, unbroken } from './dom';
import { OlderMark } from './older-mark';
import type { ViewState } from './state';
import { say } from './words';

export interface ToolbarHost {
  compute(): void;
  cancel(): void;
  toggleTable(): void;
  toggleSeason(): void;
  compare(): void;
  step(direction: 1 | -1): void;
  fit(): void;
}

/** Title, what is known of the schedule, and the buttons. */
export class Toolbar {
  private readonly title = element('h1');
  private readonly older = new OlderMark();
  private readonly note = element('p', { class: 'note' });
  private readonly find = button(say.findWeeks, 'primary');
  private readonly cancel = button(say.cancel, 'secondary');
  private readonly table = button(say.table, 'secondary', say.tableHint);
  private readonly season = button(say.season, 'secondary', say.seasonHint);
  private readonly compare = button(say.compare, 'secondary', say.compareHint);
  private readonly zoom: HTMLElement;
  private readonly bar = element('div', { class: 'bar' });
  private readonly progressBar = element(
    'div',
    {
      class: 'progress',
      role: 'progressbar',
      'aria-label': say.searching,
      'aria-valuemin': 0,
      'aria-valuemax': 100,
    },
    this.bar,
  );
  private readonly progressText = element('p', { class: 'progress-text', role: 'status' });
  readonly element: HTMLElement;

  constructor(host: ToolbarHost) {
    const out = button('−', 'secondary', `${say.zoomOut} (−)`, say.zoomOut);
    const into = button('+', 'secondary', `${say.zoomIn} (+)`, say.zoomIn);
    const fit = button(say.fit, 'secondary', say.fitHint);
    this.zoom = element('div', { class: 'group', role: 'group', 'aria-label': say.zoom }, out, into, fit);
    out.addEventListener('click', () => host.step(-1));
    into.addEventListener('click', () => host.step(1));
    fit.addEventListener('click', () => host.fit());
    this.find.addEventListener('click', () => host.compute());
    this.cancel.addEventListener('click', () => host.cancel());
    this.table.addEventListener('click', () => host.toggleTable());
    this.season.addEventListener('click', () => host.toggleSeason());
    this.compare.addEventListener('click', () => host.compare());
    this.element = element(
      'header',
      { class: 'toolbar' },
      element(
        'div',
        { class: 'about' },
        element('div', { class: 'title-line' }, this.title, this.older.element),
        this.note,
      ),
      element(
        'div',
        { class: 'buttons' },
        this.find,
        this.cancel,
        this.season,
        this.table,
        this.compare,
        this.zoom,
      ),
      this.progressText,
      this.progressBar,
    );
    this.progress({ kind: 'idle' });
  }

  /** Whether schedule and courses are still those of the text before the last change. */
  isOlder = false;

  show(view: TimelineView, state: ViewState): void {
    this.title.textContent = view.title;
    this.older.show(this.isOlder && view.empty === undefined);
    const note = [view.scheduleNote, view.drawn?.note ?? '', view.against?.note ?? ''];
    this.note.replaceChildren(...unbroken(note.filter(Boolean).join(' ')));
    this.note.hidden = this.note.textContent === '';
    const empty = view.empty !== undefined;
    this.find.hidden = empty;
    this.table.hidden = empty || state.open?.of === 'season';
    this.season.hidden = empty;
    this.season.setAttribute('aria-pressed', String(state.open?.of === 'season'));
    this.compare.hidden = empty || state.open !== null;
    this.compare.setAttribute('aria-pressed', String(view.against !== undefined));
    this.table.setAttribute('aria-pressed', String(state.mode === 'table'));
    this.zoom.hidden = empty || state.mode === 'table' || state.open !== null;
  }

  /** A running search, or none. */
  progress(message: Extract<ToPanel, { kind: 'progress' | 'idle' }>): void {
    const running = message.kind === 'progress';
    // Whoever cancelled with the keyboard must not lose the focus with the button.
    const cancelHadFocus = document.activeElement === this.cancel;
    this.find.disabled = running;
    this.cancel.hidden = !running;
    this.progressBar.hidden = !running;
    this.progressText.textContent = running ? message.text : '';
    if (!running && cancelHadFocus) this.find.focus();
    if (!running) return;
    this.progressBar.classList.toggle('unknown', message.share === null);
    if (message.share === null) {
      this.progressBar.removeAttribute('aria-valuenow');
      this.bar.style.removeProperty('width');
    } else {
      const percent = Math.round(100 * Math.min(1, Math.max(0, message.share)));
      this.progressBar.setAttribute('aria-valuenow', String(percent));
      this.bar.style.width = `${percent}%`;
    }
  }
}

function button(label: string, kind: string, title?: string, name?: string): HTMLButtonElement {
  return element('button', { type: 'button', class: kind, title, 'aria-label': name }, label);
}
