import type { ReleaseSchedule } from './types';

/** How far the search for a schedule that is good across draws is. */
export interface AcrossProgress {
  readonly round: number;
  /** Of this round. */
  readonly share: number;
  /** Mean worth of the best schedule so far. */
  readonly mean: number;
}

/** A schedule that is good across draws. */
export interface AcrossDraws {
  readonly schedule: ReleaseSchedule;
  /** Mean worth on the seasons it was sought on, the costs of change taken off. */
  readonly mean: number;
  /** The same of the schedule it started from. */
  readonly startMean: number;
  readonly rounds: number;
  /** True where it was cancelled: the best schedule found until then. */
  readonly stopped: boolean;
  /** Candidates that were tried. */
  readonly tried: number;
}
