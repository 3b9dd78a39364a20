import type { TimelineRow } from '../../src/report/timeline-types';
import { BOTTOM, confidenceShapes, heightAt } from './confidence-layout';
import { across, shape, stretch } from './dom';

/**
 * The window at other confidences than the plan's: lines within it where it would end at a higher one, and behind it
 * boxes that get lower with the confidence.
 */
export function drawConfidence(row: TimelineRow, weeks: number): SVGElement[] {
  const { beyond, within } = confidenceShapes(row, weeks);
  return [
    ...beyond.map(({ from, to, confidence }) =>
      withStep(confidence, beyondBox(confidence, stretch(from, to, weeks))),
    ),
    ...within.map(({ at, confidence }) => withStep(confidence, withinLine(confidence, across(at, weeks)))),
  ];
}

/** What stands for a confidence below the plan's. */
export function beyondBox(
  confidence: number,
  place: { readonly x: string | number; readonly width: string | number },
) {
  const height = heightAt(confidence);
  return shape('rect', {
    class: confidence > 50 ? 'beyond likely' : 'beyond',
    ...place,
    y: BOTTOM - height,
    height,
  });
}

/** What stands for one above the plan's. */
export function withinLine(confidence: number, x: string | number) {
  return shape('line', { class: 'surer', x1: x, x2: x, y1: BOTTOM - heightAt(confidence), y2: BOTTOM });
}

function withStep(confidence: number, drawn: SVGElement): SVGElement {
  drawn.dataset.mark = 'confidence';
  drawn.dataset.confidence = String(confidence);
  return drawn;
}
