import type { TimelineRow, TimelineView } from '../../src/report/timeline-types';
import { AroundOffer } from './around-offer';
import type { Tell } from './dock';
import { element, unbroken } from './dom';
import { WhyText } from './why-text';
import { filled, say, weekName } from './words';

export interface DetailHost {
  askWeek(fill: string, week: number | undefined): void;
  pinAround(fill: string, week: number): void;
  pin(row: TimelineRow): void;
  openCard(row: TimelineRow): void;
  /** The button that had the focus has gone. */
  leave(): void;
}

/** Beneath the rooms: what is pointed at, held or chosen, why it is so, and what can be done with it. */
export class Detail {
  /** Why the chosen room opens when it does, or what the week would do that its opening is held over. */
  readonly why: WhyText;
  /** What others could do around an opening that is held. */
  readonly around: AroundOffer;
  private readonly told = element('p', { class: 'told' }, say.hint);
  private readonly cardButton = element('button', { type: 'button', class: 'secondary', hidden: true });
  private readonly pinButton = element('button', {
    type: 'button',
    class: 'secondary pin-button',
    hidden: true,
  });
  readonly element: HTMLElement;
  private chosen: TimelineRow | undefined;
  /** How to let go of an opening that is held. */
  private heldNote: string | undefined;
  private most = 0;

  constructor(private readonly host: DetailHost) {
    this.why = new WhyText((fill, week) => host.askWeek(fill, week));
    this.around = new AroundOffer((fill, week) => host.pinAround(fill, week));
    this.element = element(
      'div',
      { class: 'detail' },
      element('div', { class: 'buttons actions' }, this.cardButton, this.pinButton),
      this.told,
      this.why.element,
      this.around.element,
    );
    this.pinButton.addEventListener('click', () => this.chosen && host.pin(this.chosen));
    this.cardButton.addEventListener('click', () => this.chosen && host.openCard(this.chosen));
    new ResizeObserver(() => this.keepHeight()).observe(this.element);
    window.addEventListener('resize', () => this.forgetHeight());
  }

  /** An opening is held over a week, or none any more. */
  hold(row: TimelineRow, week: string | undefined): void {
    this.heldNote = week === undefined ? undefined : filled(say.heldNote, row.room, weekName(week));
  }

  /** What is held or pointed at; else the chosen row; else how to go about. */
  show(view: TimelineView | undefined, chosen: TimelineRow | undefined, tell: Tell | undefined): void {
    this.chosen = chosen;
    const words = this.heldNote ?? (view && tell?.(view)) ?? chosen?.description ?? say.hint;
    this.told.replaceChildren(...unbroken(words));
    this.cardButton.hidden = chosen === undefined;
    if (chosen) this.cardButton.textContent = filled(say.cardOf, chosen.room);
    const pinHadFocus = document.activeElement === this.pinButton;
    // While an opening is held, Enter pins the week it is held over: no second week beside it.
    const pin = this.heldNote === undefined ? chosen?.pin : undefined;
    this.pinButton.hidden = pin === undefined;
    if (!chosen || pin === undefined) {
      if (pinHadFocus) this.host.leave();
      return;
    }
    this.pinButton.textContent = filled(say.pinTo, chosen.room, weekName(pin));
    this.pinButton.title = filled(say.pinWrites, pin, chosen.key);
  }

  /**
   * It grows with what is told and shrinks no more: the chart above takes what is left, and its rooms would jump with
   * each thing that is pointed at, and with each week of a drag.
   */
  private keepHeight(): void {
    const { offsetHeight } = this.element;
    if (offsetHeight <= this.most) return;
    this.most = offsetHeight;
    this.element.style.minHeight = `${offsetHeight}px`;
  }

  private forgetHeight(): void {
    this.most = 0;
    this.element.style.removeProperty('min-height');
  }
}
