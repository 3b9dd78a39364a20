import type { TimelineView } from '../../src/report/timeline-types';
import { across, element, shape } from './dom';
import { type AxisTick, monthTicks, WEEK_LABEL, weekTicks } from './layout';
import { say, weekTick, weekTickWidens } from './words';

/** Months above, ISO weeks below, and where today is. */
export function drawAxis(view: TimelineView, weekWidth: number): HTMLElement {
  const weeks = view.weeks.length;
  const tick = (kind: string) => (one: AxisTick) => {
    const label = element('span', { class: kind }, kind === 'week' ? weekTick(one.label) : one.label);
    label.style.left = across(one.week, weeks);
    return label;
  };
  const track = element(
    'div',
    { class: 'track', 'aria-hidden': 'true' },
    ...monthTicks(view, weekWidth).map(tick('month')),
    ...weekTicks(view.weeks, weekWidth, view.today, WEEK_LABEL + weekTickWidens()).map(tick('week')),
  );
  if (view.today !== undefined) {
    const today = element('span', { class: 'today' }, say.today);
    today.style.left = across(view.today, weeks);
    // At an end of the axis the label would hang over.
    if (view.today < 2) today.classList.add('leads');
    if (view.today > weeks - 2) today.classList.add('trails');
    track.append(today);
  }
  return track;
}

/** The lines that run through all rows: months, and today. */
export function drawGrid(view: TimelineView): SVGSVGElement {
  const weeks = view.weeks.length;
  const line = (name: string, week: number) =>
    shape('line', { class: name, x1: across(week, weeks), x2: across(week, weeks), y1: 0, y2: '100%' });
  const svg = shape('svg', { class: 'grid', 'aria-hidden': 'true' });
  svg.append(...view.months.filter(({ week }) => week > 0).map(({ week }) => line('month-line', week)));
  if (view.today !== undefined) svg.append(line('today-line', view.today));
  return svg;
}
