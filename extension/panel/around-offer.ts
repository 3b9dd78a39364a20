import type { ToPanel } from '../../src/report/timeline-types';
import { element, unbroken } from './dom';
import { say } from './words';

type Answer = Extract<ToPanel, { kind: 'around' }>;

/**
 * What others could do around an opening that is held, or was just let go over another week: told, and with one button,
 * or A, pinned together with it.
 */
export class AroundOffer {
  private readonly text = element('p', { class: 'offer' });
  private readonly button = element(
    'button',
    { type: 'button', class: 'secondary', title: say.oneEdit },
    say.pinTogether,
  );
  readonly element = element(
    'div',
    { class: 'around buttons', role: 'group', 'aria-label': say.othersMoved, hidden: true },
    this.text,
    this.button,
  );
  private held: { readonly fill: string; readonly week: number } | undefined;
  private answer: Answer | undefined;
  /** Let go over its week: what was offered for it stands until something else is chosen. */
  private dropped = false;

  constructor(private readonly pin: (fill: string, week: number) => void) {
    this.button.addEventListener('click', () => this.take());
  }

  /** An opening is held over a week, or none any more. */
  hold(fill: string, week: number | undefined): void {
    if (week === undefined) {
      if (!this.dropped) this.clear();
      return;
    }
    if (this.held?.fill === fill && this.held.week === week) return;
    this.clear();
    this.held = { fill, week };
  }

  drop(): void {
    this.dropped = this.held !== undefined;
  }

  clear(): void {
    this.held = undefined;
    this.answer = undefined;
    this.dropped = false;
    this.element.hidden = true;
  }

  /** Shows an offer where it is for the week that is held; gives its text. */
  show(answer: Answer): string | undefined {
    if (this.held?.fill !== answer.fill || this.held.week !== answer.week) return undefined;
    this.answer = answer;
    this.text.replaceChildren(...unbroken(answer.text));
    this.element.hidden = false;
    return answer.text;
  }

  /** Pins what is offered; false where nothing is. */
  take(): boolean {
    const { answer } = this;
    if (!answer) return false;
    this.clear();
    this.pin(answer.fill, answer.week);
    return true;
  }
}
