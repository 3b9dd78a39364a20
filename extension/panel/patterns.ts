import { shape } from './dom';

/** The fill patterns that shapes refer to, once a page: what differs by colour differs by pattern too. */
export function patterns(): SVGSVGElement {
  return shape(
    'svg',
    { class: 'patterns', 'aria-hidden': 'true', width: 0, height: 0 },
    shape(
      'defs',
      {},
      hatch('late-hatch', 5, 45),
      hatch('short-hatch', 4, -45),
      hatch('over-hatch', 3, 45),
      hatch('gas-hatch', 3, 0),
      dots('surplus-dots', 3),
      dots('likely-dots', 4),
    ),
  );
}

function hatch(id: string, step: number, turn: number): SVGPatternElement {
  return shape(
    'pattern',
    {
      id,
      width: step,
      height: step,
      patternUnits: 'userSpaceOnUse',
      patternTransform: `rotate(${turn})`,
    },
    shape('line', { class: id, x1: step / 2, y1: 0, x2: step / 2, y2: step }),
  );
}

function dots(id: string, step: number): SVGPatternElement {
  return shape(
    'pattern',
    { id, width: step, height: step, patternUnits: 'userSpaceOnUse' },
    shape('rect', { class: id, x: 1, y: 1, width: 1, height: 1 }),
  );
}
