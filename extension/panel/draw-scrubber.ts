import type { ScrubberSeries } from '../../src/report/timeline-types';
import { shape, stretch } from './dom';
import { scrubberShapes } from './layout';

export const SCRUBBER_HEIGHT = 24;
const BARS = SCRUBBER_HEIGHT - 2;

/** A scrubber's weekly load as small bars under the plan's limit; weeks above it are hatched. */
export function drawScrubber(series: ScrubberSeries): SVGSVGElement {
  const { weeks, limit } = scrubberShapes(series);
  const svg = shape('svg', { width: '100%', height: SCRUBBER_HEIGHT, 'aria-hidden': 'true' });
  weeks.forEach((week, index) => {
    if (!week || week.share < 0.005) return;
    const place = { y: 1 + BARS * (1 - week.share), height: BARS * week.share };
    svg.append(
      shape('rect', {
        class: week.over ? 'load over' : 'load',
        ...stretch(index, index + 1, weeks.length),
        ...place,
      }),
    );
  });
  const y = 1 + BARS * (1 - limit);
  svg.append(shape('line', { class: 'limit', x1: 0, x2: '100%', y1: y, y2: y }));
  return svg;
}
