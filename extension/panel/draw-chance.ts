import { shape, stretch } from './dom';

export const CHANCE_HEIGHT = 20;
const MOST = CHANCE_HEIGHT - 3;
/** A chance below this share is not drawn. */
const LEAST = 0.005;

/** The chance of being short by week: bars that hang from a line, all of it where it is certain; open ones are older. */
export function drawChance(chance: readonly number[], older: boolean): SVGSVGElement {
  const svg = shape('svg', { width: '100%', height: CHANCE_HEIGHT, 'aria-hidden': 'true' });
  chance.forEach((share, week) => {
    if (share < LEAST) return;
    const place = { y: 1, height: Math.max(1.5, MOST * share) };
    svg.append(
      shape('rect', {
        class: older ? 'chance older' : 'chance',
        ...stretch(week, week + 1, chance.length),
        ...place,
      }),
    );
  });
  svg.append(shape('line', { class: 'chance-line', x1: 0, x2: '100%', y1: 1, y2: 1 }));
  return svg;
}
