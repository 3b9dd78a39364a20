import type { TimelineRow } from '../../src/report/timeline-types';
import { across, shape, stretch } from './dom';
import { otherShapes } from './layout';

/** The room as it is in the other state: an outline of its window, a ring at its opening, a line while it is emptied. */
export function drawOther(row: TimelineRow, weeks: number): SVGElement[] {
  const { window, opens, emptying } = otherShapes(row, weeks);
  return [
    ...(window
      ? [
          shape('rect', {
            class: 'other-window',
            ...stretch(window.from, window.to, weeks),
            y: 1.5,
            height: 19,
          }),
        ]
      : []),
    ...(emptying
      ? [
          shape('line', {
            class: 'other-line',
            x1: across(emptying.from, weeks),
            x2: across(emptying.to, weeks),
            y1: 19.5,
            y2: 19.5,
          }),
        ]
      : []),
    ...(opens === undefined
      ? []
      : [
          shape(
            'svg',
            {
              x: across(opens, weeks),
              y: 0,
              width: 1,
              height: 22,
              overflow: 'visible',
              'data-mark': 'other',
            },
            shape('circle', { class: 'other-ring', cx: 0, cy: 11, r: 7.5 }),
          ),
        ]),
  ];
}
