import type { CardFact, CardLesson, FactGroup, RoomCard } from '../../src/report/card-types';
import type { ToPanel } from '../../src/report/timeline-types';
import { cardTable, findingList, type Reveal } from './card-parts';
import { DayChartView } from './day-chart';
import { valueText } from './day-layout';
import { element, unbroken } from './dom';
import { LessonList, type LessonListHost } from './lesson-list';
import { OlderMark } from './older-mark';
import { filled, say } from './words';

export interface RoomCardHost extends LessonListHost {
  reveal: Reveal;
  askFigure(figure: string): void;
  /** Another room's card, so many rows further. */
  step(rows: number): void;
  close(): void;
}

type Explained = Extract<ToPanel, { kind: 'explained' }>;

/** One room's page: its course day by day, its lots and findings, and its figures with how they came about. */
export class RoomCardView {
  readonly element = element('article', { class: 'card', 'aria-label': say.roomCard, tabindex: -1 });
  /** Whether the course that is shown is that of an older text. */
  readonly older = new OlderMark();
  readonly lessons: LessonList;
  private taught: { readonly key: string; readonly lessons: readonly CardLesson[] } | undefined;
  private mode: 'timeline' | 'table' = 'timeline';
  private card: RoomCard | undefined;
  private charts: readonly DayChartView[] = [];
  private day = 0;
  private derivation: HTMLElement | undefined;
  private asked: string | undefined;
  private shownAs = '';

  constructor(private readonly host: RoomCardHost) {
    this.lessons = new LessonList(host);
  }

  /** What records teach of the room; it stands until they teach something else. */
  teach(key: string, lessons: readonly CardLesson[]): void {
    this.taught = { key, lessons };
    this.showLessons();
  }

  private showLessons(): void {
    const isOfCard = this.taught !== undefined && this.taught.key === this.card?.key;
    this.lessons.show(isOfCard ? (this.taught?.lessons ?? []) : [], this.mode);
  }

  /** Draws the card, as charts or as tables; undefined while it is not there yet. */
  show(card: RoomCard | null | undefined, mode: 'timeline' | 'table'): void {
    // A card that says the same again stays as it is, with its focus and its scrolling.
    const { revision: _, ...told } = card ?? { revision: 0 };
    const shownAs = `${mode} ${card === undefined} ${JSON.stringify(told)}`;
    if (shownAs === this.shownAs) return;
    this.shownAs = shownAs;
    const another = this.card?.key !== card?.key;
    const focusedId = this.element.contains(document.activeElement) ? document.activeElement?.id : undefined;
    if (another) {
      this.derivation = undefined;
      this.asked = undefined;
    }
    if (!card) {
      this.card = undefined;
      this.charts = [];
      this.element.setAttribute('aria-label', say.roomCard);
      this.element.replaceChildren(
        this.head(undefined),
        element('p', { class: 'none' }, card === null ? say.roomGone : say.cardMaking),
      );
      return;
    }
    this.card = card;
    this.mode = mode;
    this.showLessons();
    this.element.setAttribute('aria-label', filled(say.cardNamed, card.title));
    if (another || this.day >= card.days.length) this.day = firstTold(card);
    this.charts =
      mode === 'timeline'
        ? card.charts.map(
            (chart) => new DayChartView(card, chart, { readDay: (day) => this.read(day) }, this.day),
          )
        : [];
    this.element.replaceChildren(
      this.head(card),
      element('p', { class: 'card-about' }, ...unbroken(card.description)),
      ...card.notes.map((note) => element('p', { class: 'none' }, note)),
      mode === 'timeline'
        ? element('div', { class: 'day-charts' }, ...this.charts.map((chart) => chart.element))
        : dayTable(card),
      events(card),
      this.lessons.element,
      this.facts(card.facts),
      cardTable(card.lots, this.host.reveal),
      findingList(card.findings, 0, this.host.reveal),
    );
    if (another) this.element.scrollTop = 0;
    if (focusedId) document.getElementById(focusedId)?.focus({ preventScroll: true });
  }

  /** Shows how a figure came about, where it is the one that was asked for last. */
  explain({ figure, title, text }: Explained): void {
    if (figure !== this.asked || !this.derivation) return;
    const close = element('button', { type: 'button', class: 'secondary' }, say.close);
    const lines = element('pre', { tabindex: 0, 'aria-label': title }, text);
    close.addEventListener('click', () => {
      const opener = document.getElementById(factId(figure));
      this.derivation?.replaceChildren();
      this.asked = undefined;
      opener?.focus();
    });
    this.derivation.replaceChildren(
      element('h3', {}, title),
      lines,
      element('div', { class: 'buttons' }, close),
    );
    lines.focus({ preventScroll: true });
    lines.scrollIntoView({ block: 'nearest' });
  }

  private head(card: RoomCard | undefined): HTMLElement {
    const button = (id: string, label: string, title: string, act: () => void) => {
      const made = element('button', { type: 'button', class: 'secondary', id, title }, label);
      made.addEventListener('click', act);
      return made;
    };
    return element(
      'header',
      { class: 'card-head' },
      element(
        'div',
        { class: 'title-line' },
        element('h2', {}, card?.title ?? say.roomCard),
        this.older.element,
      ),
      element(
        'div',
        { class: 'buttons' },
        button('card-back', say.allRooms, say.backToTimeline, () => this.host.close()),
        button('card-before', say.previous, say.roomBefore, () => this.host.step(-1)),
        button('card-after', say.next, say.roomAfter, () => this.host.step(1)),
        ...(card
          ? [button('card-text', say.showText, say.fillInText, () => this.host.reveal(card.target))]
          : []),
      ),
    );
  }

  private read(day: number): void {
    this.day = day;
    for (const chart of this.charts) chart.read(day);
  }

  private facts(groups: readonly FactGroup[]): HTMLElement {
    const derivation = element('div', { class: 'derivation', 'aria-live': 'polite' });
    // What is shown of a derivation stays while the card is drawn anew.
    if (this.derivation) derivation.append(...this.derivation.childNodes);
    this.derivation = derivation;
    return element(
      'section',
      { class: 'card-part' },
      element('h3', {}, say.figures),
      element('p', { class: 'none' }, say.clickTells),
      element(
        'div',
        { class: 'fact-groups' },
        ...groups.map(({ title, facts }) =>
          element(
            'div',
            { class: 'fact-group' },
            element('h4', {}, title),
            element('dl', {}, ...facts.flatMap((fact) => this.fact(fact))),
          ),
        ),
      ),
      derivation,
    );
  }

  private fact({ label, value, figure }: CardFact): HTMLElement[] {
    if (figure === undefined) return [element('dt', {}, label), element('dd', {}, value)];
    const button = element(
      'button',
      {
        class: 'link',
        type: 'button',
        id: factId(figure),
        'aria-label': filled(say.tellHow, label, value),
      },
      value,
    );
    button.addEventListener('click', () => {
      this.asked = figure;
      this.host.askFigure(figure);
    });
    return [element('dt', {}, label), element('dd', {}, button)];
  }
}

function factId(figure: string): string {
  return `fact-${figure}`;
}

/** The day that is read off first: the one after sealing on which most is told. */
function firstTold({ events, days }: RoomCard): number {
  const set = events.find(({ kind }) => kind === 'set-point');
  return Math.min(days.length - 1, set?.day ?? 0);
}

function events({ events: all, days }: RoomCard): HTMLElement {
  const byDay = new Map<number, string[]>();
  for (const { day, what } of all) byDay.set(day, [...(byDay.get(day) ?? []), what]);
  const items = [...byDay].map(([day, what]) =>
    element('li', {}, element('span', { class: 'event-day' }, days[day] ?? ''), ` ${what.join(', ')}`),
  );
  return element(
    'section',
    { class: 'card-part' },
    element('h3', {}, say.when),
    items.length === 0
      ? element('p', { class: 'none' }, say.noDates)
      : element('ul', { class: 'events' }, ...items),
  );
}

/** The charts' values as a table, a line a day. */
function dayTable(card: RoomCard): HTMLElement {
  const columns = card.charts.flatMap((chart) =>
    chart.lines.map((line) => ({
      chart,
      line,
      label: [line.name, chart.unit].filter(Boolean).join(', '),
    })),
  );
  const rows = card.days.map((day, at) =>
    element(
      'tr',
      {},
      element('th', { scope: 'row' }, day),
      ...columns.map(({ chart, line }) => {
        const value = line.values[at];
        const text =
          value === null || value === undefined
            ? ''
            : valueText(value, { decimals: chart.decimals, unit: '' });
        return element('td', { class: 'number' }, text);
      }),
    ),
  );
  return element(
    'div',
    { class: 'table days-table', id: 'days-table', role: 'region', 'aria-label': say.dayByDay, tabindex: 0 },
    element(
      'table',
      {},
      element('caption', {}, say.dayByDay),
      element(
        'thead',
        {},
        element(
          'tr',
          {},
          element('th', { scope: 'col' }, say.day),
          ...columns.map(({ label }) => element('th', { scope: 'col', class: 'number' }, label)),
        ),
      ),
      element('tbody', {}, ...rows),
    ),
  );
}
