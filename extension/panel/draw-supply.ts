import type { SupplySeries } from '../../src/report/timeline-types';
import { across, shape, stretch, stretched } from './dom';
import { supplyShapes } from './layout';
import { shortMark } from './marks';

/** Pixels: room for the marks above the bars, and the bars themselves. */
const ABOVE = 9;
export const SUPPLY_HEIGHT = 64;
const BARS = SUPPLY_HEIGHT - ABOVE;

/** Weekly supply as bars, demand as a step line over them; what is lacking is hatched and marked from above. */
export function drawSupply(series: SupplySeries): SVGSVGElement {
  const { weeks, other } = supplyShapes(series);
  const count = weeks.length;
  const svg = shape('svg', { width: '100%', height: SUPPLY_HEIGHT, 'aria-hidden': 'true' });
  const bar = (name: string, week: number, low: number, high: number) => {
    if (high - low < 0.002) return;
    const place = { y: ABOVE + BARS * (1 - high), height: BARS * (high - low) };
    svg.append(shape('rect', { class: name, ...stretch(week, week + 1, count), ...place }));
  };
  weeks.forEach(({ supply, demand, surplus, short }, week) => {
    bar('supplied', week, 0, supply);
    bar('surplus', week, supply, supply + surplus);
    if (short) bar('lacking', week, supply, demand);
  });
  svg.append(
    stretched(
      0,
      count,
      count,
      { y: ABOVE, height: BARS },
      shape('path', { class: 'demand', d: steps(weeks.map(({ demand }) => demand)) }),
      ...(other ? [shape('path', { class: 'other-supply', d: steps(other) })] : []),
    ),
    ...weeks.flatMap(({ short }, week) => (short ? [shortMark(across(week + 0.5, count))] : [])),
  );
  return svg;
}

/** A line that stays level through each week, in a square of a hundred. */
function steps(heights: readonly number[]): string {
  const width = 100 / heights.length;
  return heights
    .map((height, week) => {
      const y = (100 * (1 - height)).toFixed(2);
      return `${week === 0 ? 'M0' : 'L'}${week === 0 ? '' : (week * width).toFixed(3)} ${y} L${((week + 1) * width).toFixed(3)} ${y}`;
    })
    .join(' ');
}
