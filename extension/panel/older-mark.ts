import { element } from './dom';
import { say } from './words';

/**
 * A mark that schedule and courses are still those of the text before the last change. Its place is kept while it is
 * not shown, so that nothing moves as it comes and goes.
 */
export class OlderMark {
  readonly element = element(
    'span',
    { class: 'older-mark', title: say.olderSchedule },
    element('span', { 'aria-hidden': true }, `◷ ${say.older}`),
    element('span', { class: 'unseen' }, say.olderSchedule),
  );

  constructor() {
    this.show(false);
  }

  show(isOlder: boolean): void {
    this.element.classList.toggle('shown', isOlder);
  }
}
