import type { TimelineRow, ToPanel } from '../../src/report/timeline-types';
import { element, unbroken } from './dom';

/** Between two questions while an opening is dragged, milliseconds. */
const ASK_AFTER = 60;

type Answer = Extract<ToPanel, { kind: 'otherWeek' }>;

/** Why the chosen room opens when it does, or what the week it is held over would do; asked for, not known. */
export class WhyText {
  readonly element = element('p', { class: 'why', hidden: true });
  private asked: { readonly fill: string; readonly week: number | undefined } | undefined;
  private waiting: number | undefined;
  private readyFor: number | undefined;

  constructor(private readonly send: (fill: string, week: number | undefined) => void) {}

  /** Asks about a row; nothing is told of none, or of a room that nothing fills. */
  ask(row: TimelineRow | undefined, week?: number): void {
    window.clearTimeout(this.waiting);
    if (!row || row.key.startsWith('room:')) {
      this.asked = undefined;
      this.element.hidden = true;
      return;
    }
    const { asked } = this;
    // The old answer stands while the same is asked again, and goes where it would be wrong.
    if (asked?.fill !== row.key || asked.week !== week) this.element.hidden = true;
    this.asked = { fill: row.key, week };
    this.waiting = window.setTimeout(() => this.send(row.key, week), ASK_AFTER);
  }

  /**
   * An opening may be taken soon, of a plan's text of this revision: the first thing asked about a schedule has it valued
   * as a whole, and what each week would do then takes a few milliseconds. What is answered is told of the chosen alone.
   */
  prepare({ key }: TimelineRow, revision: number | undefined): void {
    if (this.readyFor === revision) return;
    this.readyFor = revision;
    this.send(key, undefined);
  }

  /** Shows an answer where it is the one that is waited for; gives its text. */
  take({ fill, week, text, breaks }: Answer): string | undefined {
    if (this.asked?.fill !== fill || this.asked.week !== week) return undefined;
    this.element.replaceChildren(...unbroken(text));
    this.element.classList.toggle('breaks', breaks);
    this.element.hidden = false;
    return week === undefined ? undefined : text;
  }
}
