import type { TimelineRow } from '../../src/report/timeline-types';
import { element } from './dom';
import { drawRow } from './draw-row';

/** The list of rooms. Exactly one row can be tabbed to; the others are reached from it. */
export class Rows {
  readonly list = element('div', { class: 'rows', role: 'listbox', 'aria-label': 'Rooms' });
  private drawn = new Map<string, { readonly data: string; readonly row: HTMLElement }>();
  private order: string[] = [];
  private atTab: string | undefined;

  /** Draws what has changed and leaves the rest, so that focus and position stay. */
  show(rows: readonly TimelineRow[], weeks: number, chosen: string | null): void {
    const focused = this.list.contains(document.activeElement);
    const next: typeof this.drawn = new Map();
    for (const row of rows) {
      const data = `${weeks}${JSON.stringify(row)}`;
      const known = this.drawn.get(row.key);
      next.set(row.key, known?.data === data ? known : { data, row: drawRow(row, weeks) });
    }
    this.drawn = next;
    this.order = rows.map(({ key }) => key);
    const elements = [...next.values()].map(({ row }) => row);
    if (
      elements.length !== this.list.children.length ||
      elements.some((row, at) => row !== this.list.children[at])
    )
      this.list.replaceChildren(...elements);
    this.choose(chosen ?? undefined);
    if (focused) this.focus();
  }

  /** The row that the focus is on or would come to. */
  get current(): string | undefined {
    return this.atTab;
  }

  /** Chooses the row with the key. Where there is none such, none is chosen and the first can be tabbed to. */
  choose(key: string | undefined): void {
    const before = this.element(this.atTab);
    before?.setAttribute('aria-selected', 'false');
    before?.setAttribute('tabindex', '-1');
    const known = key !== undefined && this.drawn.has(key);
    this.atTab = known ? key : this.order[0];
    const now = this.element(this.atTab);
    now?.setAttribute('tabindex', '0');
    now?.setAttribute('aria-selected', String(known));
  }

  /** The key so many rows further, not past either end. */
  keyAfter(rows: number): string | undefined {
    const at = this.order.indexOf(this.atTab ?? '') + rows;
    return this.order[Math.max(0, Math.min(this.order.length - 1, at))];
  }

  focus(): void {
    this.element(this.atTab)?.focus({ preventScroll: true });
  }

  element(key: string | undefined): HTMLElement | undefined {
    return key === undefined ? undefined : this.drawn.get(key)?.row;
  }
}
