import type {
  ScrubberSeries,
  SupplySeries,
  TextTarget,
  TimelineRow,
  TimelineView,
} from '../../src/report/timeline-types';
import { element } from './dom';
import { rowMenu } from './draw-row';
import { pickedSeries, seriesPicker } from './series-picker';
import type { ViewState } from './state';
import { whole } from './texts';
import { filled, say, weekName } from './words';

export interface TableHost {
  reveal(target: TextTarget): void;
  pickSeries(name: string): void;
  /** Key of the row in whose text the caret stands; null where it stands in no room's. */
  readonly caret: string | null;
}

/** The same figures as tables: rooms, then weeks. Focus and scrolling stay where they were. */
export function showTables(into: HTMLElement, view: TimelineView, state: ViewState, host: TableHost): void {
  const scrolled = [...into.children].map(({ scrollLeft, scrollTop }) => ({
    left: scrollLeft,
    top: scrollTop,
  }));
  const focused = into.contains(document.activeElement) ? document.activeElement?.id : undefined;
  const series = pickedSeries(view, state);
  const tables = [region('rooms-table', say.rooms, roomTable(view, host))];
  if (series || allLoads(view).length > 0) {
    const weeks = region('weeks-table', say.weeks, weekTable(view, series));
    if (series)
      weeks.prepend(
        element(
          'div',
          { class: 'pick' },
          seriesPicker('table-series', view, series, (name) => host.pickSeries(name)),
        ),
      );
    tables.push(weeks);
  }
  into.replaceChildren(...tables);
  tables.forEach((table, at) => {
    table.scrollTo(scrolled[at] ?? { left: 0, top: 0 });
  });
  if (focused) document.getElementById(focused)?.focus({ preventScroll: true });
  caretInTable(into, host.caret);
}

/** Marks the row in whose text the caret stands as the drawn timeline does, and brings it into view as that does. */
export function caretInTable(tables: HTMLElement, key: string | null): void {
  for (const row of tables.querySelectorAll<HTMLElement>('#rooms-table tbody tr')) {
    const was = row.hasAttribute('aria-current');
    if (key === null || row.dataset.key !== key) row.removeAttribute('aria-current');
    else {
      row.setAttribute('aria-current', 'true');
      if (!was && !document.hasFocus()) row.scrollIntoView({ block: 'nearest' });
    }
  }
}

function region(id: string, label: string, table: HTMLElement): HTMLElement {
  return element('div', { id, class: 'table', role: 'region', 'aria-label': label, tabindex: 0 }, table);
}

function roomTable(view: TimelineView, host: TableHost): HTMLElement {
  return element(
    'table',
    {},
    element('caption', {}, say.rooms),
    head(view.columns),
    element('tbody', {}, ...view.rows.map((row) => roomRow(row, host))),
  );
}

function roomRow(row: TimelineRow, host: TableHost): HTMLElement {
  const [room = row.room, ...others] = row.cells;
  const button = element(
    'button',
    {
      id: `table-${row.key}`,
      class: 'link',
      type: 'button',
      'aria-label': filled(say.showRoomInText, room, row.key),
    },
    room,
  );
  button.addEventListener('click', () => host.reveal(row.target));
  const cells = others.map((text) => element('td', { class: numeric(text) }, ...weekAndRest(text)));
  return element(
    'tr',
    { 'data-key': row.key, ...rowMenu(row) },
    element('th', { scope: 'row' }, button),
    ...cells,
  );
}

/** A week stays in one line where what is said of it goes on in the next. */
function weekAndRest(text: string): (Node | string)[] {
  const [, week, rest] = /^(\d+-W\d+|KW \d+\/\d+)( .+)$/.exec(text) ?? [];
  return week && rest ? [element('span', { class: 'whole' }, week), rest] : [text];
}

function weekTable(view: TimelineView, series: SupplySeries | undefined): HTMLElement {
  const loads = allLoads(view);
  const scrubbers = loads.map(({ name }) => `${name} (%)`);
  const surplus = series?.surplus !== undefined;
  const columns = [
    say.week,
    ...(series ? [say.wanted, say.supplied, say.short] : []),
    ...(surplus ? [say.toProcessing] : []),
    ...(series?.chance ? [view.drawn?.older ? `${say.chanceShortOlder} (%)` : `${say.chanceShort} (%)`] : []),
    ...scrubbers,
  ];
  const rows = view.weeks.map((week, at) => {
    const cells = [
      ...(series ? cartons(series, at) : []),
      ...(surplus ? [some(series.surplus?.[at])] : []),
      ...(series?.chance ? [chance(series.chance[at])] : []),
      ...loads.map(({ share, limit }) => load(share[at], limit)),
    ];
    return element(
      'tr',
      {},
      element('th', { scope: 'row' }, weekName(week)),
      ...cells.map((text) => element('td', { class: 'number' }, text)),
    );
  });
  const caption = series ? filled(say.weekCaption, series.name) : say.loadCaption;
  return element(
    'table',
    {},
    element('caption', {}, caption),
    head(columns, 1),
    element('tbody', {}, ...rows),
  );
}

/** Scrubbers first, then the other equipment. */
function allLoads({ scrubbers, loads = [] }: TimelineView): readonly ScrubberSeries[] {
  return [...scrubbers, ...loads.flatMap(({ series }) => series)];
}

function cartons({ demand, supply, short }: SupplySeries, week: number): string[] {
  const wanted = demand[week] ?? 0;
  const supplied = supply[week];
  const lacking = supplied !== undefined && short.includes(week) ? wanted - supplied : 0;
  return [some(wanted), some(supplied), some(lacking)];
}

/** Nothing is an empty cell: what is there stands out. */
function some(cartonsOrNone: number | undefined): string {
  return cartonsOrNone !== undefined && cartonsOrNone >= 0.5 ? whole(cartonsOrNone) : '';
}

/** Nothing is an empty cell here too. */
function chance(share: number | undefined): string {
  return share === undefined || share < 0.005 ? '' : whole(100 * share);
}

function load(share: number | null | undefined, limit: number): string {
  if (share === null || share === undefined) return '';
  return share > limit ? `▲ ${whole(share)}` : whole(share);
}

/** Columns from `numbersFrom` on hold numbers. */
function head(columns: readonly string[], numbersFrom = Number.POSITIVE_INFINITY): HTMLElement {
  const cells = columns.map((label, at) =>
    element(
      'th',
      { scope: 'col', class: at >= numbersFrom || label === say.bins ? 'number' : undefined },
      label,
    ),
  );
  return element('thead', {}, element('tr', {}, ...cells));
}

function numeric(text: string): string | undefined {
  return /^\d[\d.,]*$/.test(text) ? 'number' : undefined;
}
