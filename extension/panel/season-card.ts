import type { Gauge, SeasonCard } from '../../src/report/card-types';
import { cardTable, findingList, type Reveal } from './card-parts';
import { element, shape } from './dom';
import { OlderMark } from './older-mark';
import { filled, say } from './words';

export interface SeasonCardHost {
  reveal: Reveal;
  close(): void;
}

/** The season at a glance: gauges, then tables, then findings. */
export class SeasonCardView {
  readonly element = element('article', { class: 'card', 'aria-label': say.seasonCard, tabindex: -1 });
  /** Whether the schedule that is shown is that of an older text. */
  readonly older = new OlderMark();
  private shownAs = '';

  constructor(private readonly host: SeasonCardHost) {}

  show(card: SeasonCard | null | undefined): void {
    const { revision: _, ...told } = card ?? { revision: 0 };
    const shownAs = `${card === undefined} ${JSON.stringify(told)}`;
    if (shownAs === this.shownAs) return;
    this.shownAs = shownAs;
    const { scrollTop } = this.element;
    const back = element(
      'button',
      { type: 'button', class: 'secondary', id: 'season-back', title: say.backToTimeline },
      say.allRooms,
    );
    const backHadFocus = document.activeElement?.id === 'season-back';
    back.addEventListener('click', () => this.host.close());
    const head = element(
      'header',
      { class: 'card-head' },
      element('div', { class: 'title-line' }, element('h2', {}, say.seasonAtGlance), this.older.element),
      element('div', { class: 'buttons' }, back),
    );
    if (!card) {
      this.element.replaceChildren(head, element('p', { class: 'none' }, say.cardMaking));
      return;
    }
    this.element.replaceChildren(
      head,
      element('ul', { class: 'gauges' }, ...card.gauges.map(gauge)),
      element('p', { class: 'card-about' }, countsText(card)),
      element(
        'div',
        { class: 'card-tables' },
        ...card.tables.map((table) => cardTable(table, this.host.reveal)),
      ),
      findingList(card.findings, card.more, this.host.reveal),
    );
    this.element.scrollTop = scrollTop;
    if (backHadFocus) back.focus({ preventScroll: true });
  }
}

/** A share as a bar up to its whole; what is above it is hatched and marked. */
function gauge({ label, text, share, bad }: Gauge): HTMLElement {
  const within = Math.max(0, Math.min(1, share ?? 0));
  // The whole is where the bar would end at a hundred per cent; more than that goes on to its right.
  const scale = Math.max(1, share ?? 0);
  const bar = shape(
    'svg',
    { class: 'gauge-bar', viewBox: '0 0 100 10', preserveAspectRatio: 'none', 'aria-hidden': 'true' },
    shape('rect', { class: 'gauge-whole', x: 0, y: 0, width: 100 / scale, height: 10 }),
    shape('rect', { class: 'gauge-part', x: 0, y: 0, width: (100 * within) / scale, height: 10 }),
    ...(scale > 1
      ? [shape('rect', { class: 'gauge-over', x: 100 / scale, y: 0, width: 100 - 100 / scale, height: 10 })]
      : []),
  );
  return element(
    'li',
    { class: bad ? 'gauge bad' : 'gauge' },
    element('span', { class: 'gauge-label' }, label),
    element('span', { class: 'gauge-text' }, `${bad ? '▲ ' : ''}${text}`),
    ...(share === null ? [] : [bar]),
  );
}

function countsText({ counts }: SeasonCard): string {
  const { errors, warnings, notices } = counts;
  return filled(say.findingCounts, errors, warnings, notices);
}
