import type { TimelineRow } from '../../src/report/timeline-types';

/** Where the windows at other confidences than the plan's lie, in weeks from the first; heights in pixels of a row. */

export interface ConfidenceShapes {
  /** Behind the plan's window, from where the one at a higher confidence ends. */
  readonly beyond: readonly { readonly confidence: number; readonly from: number; readonly to: number }[];
  /** Within it, where the window at a higher confidence ends. */
  readonly within: readonly { readonly confidence: number; readonly at: number }[];
}

/** The confidences that the key shows, per cent; the plan's own is shown as the window. */
export const KEY_CONFIDENCES: readonly number[] = [95, 80, 50];

/** Where window and boxes stand on. */
export const BOTTOM = 18.5;
const TALLEST = 15;
const LOWEST = 4;

/** Lower with the confidence: as tall as the window for certainty. Whole pixels. */
export function heightAt(confidence: number): number {
  const above = Math.max(0, (confidence - 30) / 70);
  return Math.round(LOWEST + (TALLEST - LOWEST) * Math.min(1, above));
}

/** Cut off where the weeks end. */
export function confidenceShapes(
  { window, byConfidence = [] }: TimelineRow,
  weeks: number,
): ConfidenceShapes {
  const own = byConfidence.find(({ isPlans }) => isPlans);
  if (!window || !own) return { beyond: [], within: [] };
  const begins = Math.max(0, window.earliest);
  const ends = Math.max(begins, own.latest + 1);
  let from = ends;
  const beyond = byConfidence.flatMap(({ confidence, latest }) => {
    if (confidence >= own.confidence) return [];
    const box = { confidence, from, to: Math.min(weeks, latest + 1) };
    if (box.to <= from) return [];
    from = box.to;
    return [box];
  });
  const within = byConfidence.flatMap(({ confidence, latest }) => {
    const at = latest + 1;
    return confidence > own.confidence && at > begins && at < Math.min(ends, weeks)
      ? [{ confidence, at }]
      : [];
  });
  return { beyond, within };
}
