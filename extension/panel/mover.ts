import type { TimelineRow, TimelineView } from '../../src/report/timeline-types';
import { across, shape } from './dom';
import { openingMark } from './marks';

export interface MoverHost {
  /** The pointer is over an opening that could be taken. */
  hovered(row: TimelineRow): void;
  /** The opening is held over a week, or no longer. */
  held(row: TimelineRow, week: number | undefined): void;
  /** It was let go over another week than its own. */
  dropped(row: TimelineRow, week: number): void;
}

interface Held {
  readonly row: TimelineRow;
  readonly track: HTMLElement;
  readonly mark: SVGSVGElement;
  week: number;
}

/** Moves a room's opening along its row, by pointer or by keys, and shows where it would go before it is let go. */
export class Mover {
  private held: Held | undefined;
  private pointer: number | undefined;
  private dragged: HTMLElement | undefined;
  private draggedRow: TimelineRow | undefined;
  /** The click that ends a drag is not a click on the row. */
  private swallow = false;

  constructor(
    private readonly list: HTMLElement,
    private readonly rowAt: (target: EventTarget | null) => TimelineRow | undefined,
    private readonly viewNow: () => TimelineView | undefined,
    private readonly host: MoverHost,
  ) {
    list.addEventListener('pointerover', (event) => {
      const row = this.pointer === undefined ? this.movable(event.target) : undefined;
      if (row) this.host.hovered(row);
    });
    list.addEventListener('pointerdown', (event) => this.down(event));
    list.addEventListener('pointermove', (event) => this.drag(event));
    list.addEventListener('pointerup', (event) => this.up(event));
    list.addEventListener('pointercancel', () => this.cancel());
    list.addEventListener('focusout', (event) => {
      const inside = event.relatedTarget instanceof Node && list.contains(event.relatedTarget);
      if (!inside && this.pointer === undefined) this.cancel();
    });
  }

  /** True once after a drag. */
  takeClick(): boolean {
    const swallowed = this.swallow;
    this.swallow = false;
    return swallowed;
  }

  /** The row and week held now. */
  get current(): { readonly row: TimelineRow; readonly week: number } | undefined {
    return this.held && { row: this.held.row, week: this.held.week };
  }

  /** Takes the opening of a row, where it is not held yet, and moves it by some weeks. */
  step(row: TimelineRow, element: HTMLElement, weeks: number): void {
    if (this.held && this.held.row.key !== row.key) this.cancel();
    const from = this.held?.week ?? startOf(row);
    if (from === undefined) return;
    this.moveTo(row, element, from + weeks);
  }

  /** Lets go. False where nothing was held. */
  drop(): boolean {
    const { held } = this;
    if (!held) return false;
    this.put();
    if (held.week !== held.row.opens?.week) this.host.dropped(held.row, held.week);
    else this.host.held(held.row, undefined);
    return true;
  }

  /** Puts it back where it was. False where nothing was held. */
  cancel(): boolean {
    const { held } = this;
    if (!held) return false;
    this.put();
    this.host.held(held.row, undefined);
    return true;
  }

  private down(event: PointerEvent): void {
    this.swallow = false;
    const row = this.movable(event.target);
    if (event.button !== 0 || !row || !(event.target instanceof Element)) return;
    this.cancel();
    this.pointer = event.pointerId;
    // Without this the text of the page would be marked.
    event.preventDefault();
    const element = event.target.closest<HTMLElement>('.row');
    element?.focus({ preventScroll: true });
    this.dragged = element ?? undefined;
    this.draggedRow = row;
  }

  /** The row whose opening is there and can be taken. */
  private movable(target: EventTarget | null): TimelineRow | undefined {
    const mark = target instanceof Element ? target.closest('[data-mark="opens"]') : null;
    const row = mark ? this.rowAt(target) : undefined;
    return row && startOf(row) !== undefined ? row : undefined;
  }

  private drag(event: PointerEvent): void {
    const { dragged, draggedRow } = this;
    if (event.pointerId !== this.pointer || !dragged || !draggedRow) return;
    const track = dragged.querySelector<HTMLElement>('.track')?.getBoundingClientRect();
    const weeks = this.viewNow()?.weeks.length ?? 0;
    if (!track || weeks === 0 || track.width === 0) return;
    const week = Math.round(((event.clientX - track.left) / track.width) * weeks);
    if (!this.held && week === startOf(draggedRow)) return;
    // Not before: a captured press would end as a click on the list, and not on the mark.
    this.list.setPointerCapture(event.pointerId);
    this.moveTo(draggedRow, dragged, week);
  }

  private up(event: PointerEvent): void {
    if (event.pointerId !== this.pointer) return;
    this.pointer = undefined;
    this.dragged = undefined;
    if (this.held) this.swallow = true;
    this.drop();
  }

  private moveTo(row: TimelineRow, element: HTMLElement, wanted: number): void {
    const weeks = this.viewNow()?.weeks.length ?? 0;
    const week = Math.max(0, Math.min(weeks - 1, wanted));
    if (this.held?.week === week) return;
    const track = element.querySelector<HTMLElement>('.track');
    if (!track) return;
    this.held?.mark.remove();
    const mark = shape(
      'svg',
      { class: 'moving', width: '100%', height: 22, 'aria-hidden': 'true' },
      shape('line', {
        class: 'moving-line',
        x1: across(startOf(row) ?? week, weeks),
        x2: across(week, weeks),
        y1: 11,
        y2: 11,
      }),
      openingMark(across(week, weeks), true),
    );
    track.append(mark);
    this.held = { row, track, mark, week };
    this.host.held(row, week);
  }

  private put(): void {
    this.held?.mark.remove();
    this.held = undefined;
    this.pointer = undefined;
    this.dragged = undefined;
  }
}

/** Where an opening is taken from: its week, else where the room keeps best. Rooms that nothing fills have none. */
function startOf({ key, opens, window }: TimelineRow): number | undefined {
  return key.startsWith('room:') ? undefined : (opens?.week ?? window?.bestBefore);
}
