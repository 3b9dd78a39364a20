import type { DrawInputs } from '../release/draw-inputs';
import type { DrawnSeasons } from '../report/timeline-drawn';
import type { Release } from './kept-schedule';

/** The schedule that was handed out last for seasons to be drawn of it, and the seasons that came back last. */
export interface KeptDraws {
  readonly job: number;
  readonly release: Release;
  readonly inputs: DrawInputs;
  readonly seasons?: DrawnSeasons;
}
