import type { TimelineRow } from '../../src/report/timeline-types';
import { element } from './dom';
import { drawRow } from './draw-row';
import { filled, say } from './words';

/** Rows that are drawn before it is known which are in view. */
const FIRST_DRAWN = 80;

/** The list of rooms. Exactly one row can be tabbed to; the others are reached from it. */
export class Rows {
  readonly list = element('div', {
    class: 'rows',
    role: 'listbox',
    'aria-label': say.rooms,
    'data-none': say.noRoomFits,
  });
  private drawn = new Map<string, { readonly data: string; readonly row: HTMLElement }>();
  private order: string[] = [];
  private atTab: string | undefined;
  private atCaret: string | undefined;
  private sight: IntersectionObserver | undefined;

  /**
   * Shows what is drawn of a row only near what is in view of `root`: five hundred rows of shapes would hold up every
   * frame of scrolling. What a row says to a screen reader is always there.
   */
  watch(root: HTMLElement): void {
    this.sight = new IntersectionObserver(
      (changes) => {
        for (const { target, isIntersecting } of changes) target.classList.toggle('away', !isIntersecting);
      },
      { root, rootMargin: '250px 0px' },
    );
  }

  /**
   * Draws what has changed and leaves the rest, so that focus and position stay. `groups` has for each row what it has
   * in common with those around it; each group gets a head.
   */
  show(
    rows: readonly TimelineRow[],
    weeks: number,
    chosen: string | null,
    groups: readonly (string | undefined)[] = [],
  ): void {
    const focused = this.list.contains(document.activeElement);
    const next: typeof this.drawn = new Map();
    for (const row of rows) {
      const data = `${weeks}${JSON.stringify(row)}`;
      const known = this.drawn.get(row.key);
      if (known?.data === data) {
        next.set(row.key, known);
        continue;
      }
      const drawn = drawRow(row, weeks);
      drawn.classList.toggle('away', known?.row.classList.contains('away') ?? next.size > FIRST_DRAWN);
      this.sight?.observe(drawn);
      next.set(row.key, { data, row: drawn });
    }
    for (const [key, { row }] of this.drawn) if (next.get(key)?.row !== row) this.sight?.unobserve(row);
    this.drawn = next;
    this.order = rows.map(({ key }) => key);
    const drawn = [...next.values()].map(({ row }) => row);
    inOrder(this.list, withHeads(drawn, groups));
    this.choose(chosen ?? undefined);
    this.caretIn(this.atCaret);
    if (focused) this.focus();
  }

  /** The row that the focus is on or would come to. */
  get current(): string | undefined {
    return this.atTab;
  }

  /** The row that has the focus. */
  get focused(): string | undefined {
    return this.list.contains(document.activeElement) ? this.atTab : undefined;
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

  /** Marks the row as the one that the caret of the text stands in; false where it was so before. */
  caretIn(key: string | undefined): boolean {
    const moved = key !== this.atCaret;
    if (moved) this.element(this.atCaret)?.removeAttribute('aria-current');
    this.atCaret = key;
    this.element(key)?.setAttribute('aria-current', 'true');
    return moved;
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

/** The rows with a head before the first of each group; a screen reader has it from the rows themselves. */
function withHeads(rows: readonly HTMLElement[], groups: readonly (string | undefined)[]): HTMLElement[] {
  return rows.flatMap((row, at) => {
    const group = groups[at];
    if (group === undefined || group === groups[at - 1]) return [row];
    const rooms = groups.filter((one) => one === group).length;
    const name = element('div', { class: 'name' }, filled(say.groupHead, group, rooms));
    return [element('div', { class: 'group-head', 'aria-hidden': 'true' }, name), row];
  });
}

/** Makes the elements the list's children in their order, and touches only those that are new, gone or elsewhere. */
function inOrder(list: HTMLElement, elements: readonly HTMLElement[]): void {
  const wanted = new Set<Element>(elements);
  for (const child of [...list.children]) if (!wanted.has(child)) child.remove();
  let next = list.firstElementChild;
  for (const row of elements) {
    if (row === next) next = next.nextElementSibling;
    else list.insertBefore(row, next);
  }
}
