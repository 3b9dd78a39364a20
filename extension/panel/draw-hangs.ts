import type { TimelineRow } from '../../src/report/timeline-types';
import { across, shape } from './dom';

/** A weight beneath the opening of a room that the schedule hangs on; larger for the one it hangs on most. */
export function drawHangs({ hangs, opens, window }: TimelineRow, weeks: number): SVGSVGElement[] {
  const week = opens?.week ?? window?.bestBefore;
  if (!hangs || week === undefined || week < 0 || week >= weeks) return [];
  return [
    shape(
      'svg',
      { x: across(week, weeks), y: 0, width: 1, height: 22, overflow: 'visible', 'data-mark': 'hangs' },
      hangsMark(hangs.rank),
    ),
  ];
}

export function hangsMark(rank: number): SVGPathElement {
  const wide = rank === 1 ? 6 : 4.5;
  return shape('path', { class: 'hangs', d: `M-2.5 17 L2.5 17 L${wide} 22 L${-wide} 22 Z` });
}
