import type { TimelineRow } from '../../src/report/timeline-types';
import { across, element, shape, stretch, stretched } from './dom';
import { drawConfidence } from './draw-confidence';
import { drawHangs } from './draw-hangs';
import { drawMarks } from './draw-marks';
import { drawOther } from './draw-other';
import { type RowShapes, rowShapes } from './layout';
import { conflictMark, openingMark, severityMark } from './marks';

/** A room's row: its name at the left, its season across; for screen readers its description instead. */
export function drawRow(row: TimelineRow, weeks: number): HTMLElement {
  return element(
    'div',
    {
      class: row.filling ? 'row' : 'row idle',
      role: 'option',
      id: rowId(row.key),
      'data-key': row.key,
      'aria-selected': 'false',
      tabindex: -1,
      ...rowMenu(row),
    },
    element('span', { class: 'unseen' }, row.description),
    rowName(row),
    element('div', { class: 'track' }, drawSeason(row, weeks)),
  );
}

/** What the editor's own menu over the row goes by. */
export function rowMenu({ key, pin }: TimelineRow): { readonly 'data-vscode-context': string } {
  const section = pin === undefined ? 'row' : 'canPin';
  return {
    'data-vscode-context': JSON.stringify({
      webviewSection: section,
      fill: key,
      preventDefaultContextMenuItems: true,
    }),
  };
}

export function rowId(key: string): string {
  return `row-${key}`;
}

function rowName(row: TimelineRow): HTMLElement {
  const { room, varieties, bins } = row;
  return element(
    'div',
    { class: 'name', 'aria-hidden': 'true' },
    element('span', { class: 'room' }, room),
    element('span', { class: 'varieties' }, varieties),
    // The unit stands in the column's head.
    element('span', { class: 'bins' }, bins.replace(/ .*$/, '')),
    badge(row.findings),
  );
}

/** The gravest of a row's findings, and how many there are of it. */
function badge({ errors, warnings, notices }: TimelineRow['findings']): HTMLElement {
  const cell = element('span', { class: 'badge' });
  const worst = (
    [
      ['error', errors],
      ['warning', warnings],
      ['notice', notices],
    ] as const
  ).find(([, count]) => count > 0);
  if (worst) cell.append(severityMark(worst[0]), worst[1] > 1 ? String(worst[1]) : '');
  return cell;
}

function drawSeason(row: TimelineRow, weeks: number): SVGSVGElement {
  const drawn = season(rowShapes(row, weeks), weeks, drawConfidence(row, weeks));
  drawn.append(...drawOther(row, weeks), ...drawMarks(row, weeks), ...drawHangs(row, weeks));
  return drawn;
}

/** From back to front: window, that at other confidences, life line, what is done to the room, the opening. */
function season(shapes: RowShapes, weeks: number, byConfidence: readonly SVGElement[]): SVGSVGElement {
  const { life, filling, pullDown, keeping, emptying, window, late, conflict, opens } = shapes;
  const svg = shape('svg', { width: '100%', height: 22, 'aria-hidden': 'true' });
  if (window)
    svg.append(
      shape('rect', { class: 'window', ...stretch(window.from, window.to, weeks), y: 3.5, height: 15 }),
    );
  if (late)
    svg.append(shape('rect', { class: 'late', ...stretch(late.from, late.to, weeks), y: 4, height: 14 }));
  svg.append(...byConfidence);
  if (life)
    svg.append(
      shape('line', {
        class: 'life',
        x1: across(life.from, weeks),
        x2: across(life.to, weeks),
        y1: 11,
        y2: 11,
      }),
    );
  if (keeping)
    svg.append(
      shape('rect', { class: 'keeping', ...stretch(keeping.from, keeping.to, weeks), y: 8, height: 6 }),
    );
  if (filling) svg.append(wedge('filling', filling.from, filling.to, weeks, '0,50 100,0 100,100'));
  if (pullDown)
    svg.append(
      shape('rect', { class: 'pull-down', ...stretch(pullDown.from, pullDown.to, weeks), y: 4, height: 14 }),
    );
  if (emptying) svg.append(wedge('emptying', emptying.from, emptying.to, weeks, '0,0 100,50 0,100'));
  if (conflict !== undefined) svg.append(conflictMark(across(conflict, weeks)));
  if (opens) svg.append(openingMark(across(opens.at, weeks), opens.pinned));
  return svg;
}

/** Bins come in: a widening wedge. Bins go out: a narrowing one. */
function wedge(name: string, from: number, to: number, weeks: number, points: string): SVGSVGElement {
  return stretched(from, to, weeks, { y: 4, height: 14 }, shape('polygon', { class: name, points }));
}
