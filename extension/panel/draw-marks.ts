import type { FindingMark, TimelineRow } from '../../src/report/timeline-types';
import { across, shape } from './dom';
import { severityMark } from './marks';

/** Findings at their weeks, one for each week: the gravest, with how many others there are in its title. */
export function drawMarks({ marks = [] }: TimelineRow, weeks: number): SVGSVGElement[] {
  const byWeek = new Map<number, FindingMark[]>();
  for (const mark of marks) byWeek.set(mark.week, [...(byWeek.get(mark.week) ?? []), mark]);
  return [...byWeek].flatMap(([week, found]) => {
    const [gravest] = found;
    if (!gravest || week < 0 || week >= weeks) return [];
    const drawn = severityMark(gravest.severity);
    drawn.setAttribute('x', '-5');
    drawn.setAttribute('width', '10');
    drawn.setAttribute('height', '10');
    // A hair to the right of the week's start, so that an opening of the same week stays to be seen.
    return [
      shape(
        'svg',
        {
          class: 'finding-mark',
          x: across(week + 0.5, weeks),
          y: 0,
          width: 1,
          height: 11,
          overflow: 'visible',
          'data-mark': 'finding',
          'data-week': week,
        },
        drawn,
      ),
    ];
  });
}
