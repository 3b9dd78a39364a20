import type { Minute } from '../readings/types';

/** A fitted value and the limits between which it lies 95 times in 100, in the value's unit. */
export interface Interval {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

/** What a 95 % interval is made of: half its width from each cause alone, in the value's unit. */
export interface IntervalPart {
  readonly cause: IntervalCause;
  readonly below: number;
  readonly above: number;
}

export type IntervalCause =
  | 'between spans'
  | 'respiratory quotient'
  | 'sensor drift'
  | 'calibration'
  | 'coarse steps'
  | 'leak';

/** A stretch of the readings in which nothing scrubs, feeds or lets air in. */
export interface RestingSpan {
  readonly from: Minute;
  readonly to: Minute;
  /** Readings used of each gas. */
  readonly carbonDioxide: Line;
  /** Undefined where oxygen was not read, or stood still as a stuck sensor does. */
  readonly oxygen: Line | undefined;
}

/** A straight line through readings: per cent at the middle, per cent an hour, and the slope's standard error. */
export interface Line {
  readonly count: number;
  /** Hours since 1970, at which the line has its `level`. */
  readonly at: number;
  readonly level: number;
  readonly slope: number;
  readonly slopeError: number;
  /** Scatter about the line against the sensor's noise: about 1 where the line is all there is. */
  readonly scatter: number;
}
