import type { FromPanel } from '../../src/report/timeline-types';
import { element } from './dom';
import { say } from './words';

type Begin = Extract<FromPanel, { kind: 'begin' }>['with'];

/** What stands in place of the rooms while there are none: why, and how to begin. */
export class Welcome {
  /** Stands where the toolbar has no name of a plan to show. */
  private readonly title = element('h1', {}, say.roomTimeline);
  private readonly why = element('p', { class: 'why-empty', role: 'status' }, say.reading);
  private readonly ways = element('div', { class: 'buttons ways' });
  readonly element = element('div', { class: 'empty' }, this.title, this.why, this.ways);
  private shownAs = '';

  constructor(private readonly begin: (way: Begin) => void) {}

  /** There is a plan, and this is why nothing of it can be drawn. */
  say(text: string): void {
    this.title.hidden = true;
    this.show(text, []);
  }

  /** There is no plan; without a folder there could be none. */
  noPlan(hasFolder: boolean): void {
    this.title.hidden = false;
    this.show(hasFolder ? say.noPlanInFolder : say.noFolder, [
      ['sample', say.beginSample],
      ['newPlan', say.beginNew],
      ...(hasFolder ? [] : ([['folder', say.beginFolder]] as const)),
      ['walkthrough', say.beginGuide],
    ]);
  }

  private show(text: string, ways: readonly (readonly [Begin, string])[]): void {
    const shownAs = `${text} ${ways.length}`;
    if (shownAs === this.shownAs) return;
    this.shownAs = shownAs;
    this.why.textContent = text;
    this.ways.replaceChildren(...ways.map(([way, label], index) => this.button(way, label, index === 0)));
  }

  private button(way: Begin, label: string, first: boolean): HTMLButtonElement {
    const button = element('button', { type: 'button', class: first ? 'primary' : 'secondary' }, label);
    button.addEventListener('click', () => this.begin(way));
    return button;
  }
}
