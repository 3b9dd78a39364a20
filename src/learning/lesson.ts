import type { Day } from '../plan/dates';
import type { Unit } from '../plan/figure';
import type { Interval, IntervalPart } from './types';

export type LessonKind = 'respiration' | 'leakage' | 'firmness' | 'packout' | 'crop';

/** Something records have taught, which the planner may take into the plan or not. */
export interface Lesson {
  /** `respiration/R2-gala`: its kind and the entry it is of. */
  readonly id: string;
  readonly kind: LessonKind;
  readonly section: 'fills' | 'rooms' | 'lots';
  readonly entry: string;
  /** What was fitted, each with its interval, beside what the plan reckons with now. */
  readonly values: readonly LessonValue[];
  /** What was read, packed or received, beside what was fitted to it. */
  readonly series: readonly LessonSeries[];
  /** What would be written: the key below the entry and its value, without the source. */
  readonly key: string;
  readonly written: readonly (readonly [key: string, value: string])[];
  /** What stands beside it in the plan, to say where the value is from. */
  readonly source: string;
  /** Sentences on what it rests on and what it leaves open. */
  readonly remarks: readonly string[];
}

export interface LessonValue {
  readonly name: string;
  readonly unit: Unit;
  /** What the plan reckons with now; undefined where it has nothing. */
  readonly before: number | undefined;
  readonly fitted: Interval;
  /** What the interval is made of, where it has more than one cause. */
  readonly parts?: readonly IntervalPart[] | undefined;
}

export interface LessonSeries {
  readonly name: string;
  readonly unit: Unit;
  readonly points: readonly LessonPoint[];
}

/** One thing that was seen, and what the fit says of it; a point without `seen` is of the curve alone. */
export interface LessonPoint {
  /** The days it is of, or the lot. */
  readonly from: Day;
  readonly to: Day;
  readonly about?: string | undefined;
  readonly seen?: number | undefined;
  readonly fitted: Interval;
}

/** Why something cannot be told. */
export interface NotLearned {
  readonly kind: LessonKind;
  readonly entry: string;
  readonly reason: string;
}

export interface Learned {
  readonly lessons: readonly Lesson[];
  readonly not: readonly NotLearned[];
}

/** A number as it is written into a plan: as many digits as its interval bears, two at least. */
export function digitsFor(value: number, { low, high }: Interval): string {
  const half = Math.max((high - low) / 2, 1e-9);
  const decimals = Math.min(6, Math.max(0, Math.ceil(-Math.log10(half)) + 1));
  return String(Number(value.toFixed(decimals)));
}

export function exactly(value: number): Interval {
  return { value, low: value, high: value };
}
