import { shape } from './dom';

/** Marks of a fixed size, drawn around the point where they stand. */

/** The chosen opening week: a diamond. A pinned one: a pin, head up. */
export function openingMark(x: string, pinned: boolean): SVGSVGElement {
  const drawn = pinned
    ? [
        shape('line', { class: 'pin-stem', x1: 0, y1: 8, x2: 0, y2: 20 }),
        shape('circle', { class: 'pin-head', cx: 0, cy: 7, r: 4.5 }),
        shape('circle', { class: 'pin-eye', cx: 0, cy: 7, r: 1.5 }),
      ]
    : [shape('path', { class: 'diamond', d: 'M0 5.2 L5.8 11 L0 16.8 L-5.8 11 Z' })];
  return at(x, 'opens', ...drawn);
}

/** No week fits: a cross. */
export function conflictMark(x: string): SVGSVGElement {
  return at(x, 'conflict', shape('path', { class: 'cross', d: 'M-4 7 L4 15 M4 7 L-4 15' }));
}

/** A short week: a mark over the bar that points down at it. */
export function shortMark(x: string): SVGSVGElement {
  return at(x, 'short', shape('path', { class: 'short-mark', d: 'M-3.5 1 L3.5 1 L0 7 Z' }));
}

function at(x: string, kind: string, ...drawn: Node[]): SVGSVGElement {
  return shape('svg', { x, y: 0, width: 1, height: 22, overflow: 'visible', 'data-mark': kind }, ...drawn);
}

type Severity = 'error' | 'warning' | 'notice';

const SEVERITY_SHAPES: Readonly<Record<Severity, string>> = {
  error: 'M6 0.8 A5.2 5.2 0 1 0 6 11.2 A5.2 5.2 0 1 0 6 0.8 Z M3.9 3.9 L8.1 8.1 M8.1 3.9 L3.9 8.1',
  warning: 'M6 0.9 L11.4 11 L0.6 11 Z M6 4.4 L6 7.4 M6 8.6 L6 9.8',
  notice: 'M1.2 1.2 H10.8 V10.8 H1.2 Z M6 5 L6 9.2 M6 2.8 L6 4',
};

/** Circle, triangle or square: the severity of a finding. */
export function severityMark(severity: Severity): SVGSVGElement {
  return shape(
    'svg',
    { class: `severity ${severity}`, viewBox: '0 0 12 12', width: 12, height: 12, 'aria-hidden': 'true' },
    shape('path', { d: SEVERITY_SHAPES[severity] }),
  );
}
