import type { Week } from '../plan/dates';
import type { AmountUnit, MeasureKind, Subject } from './types';

/** One figure of a computed season that is held against that of the other plan. */
export interface Measure {
  readonly kind: MeasureKind;
  readonly key: string;
  readonly about: Subject;
  readonly unit: AmountUnit;
  /** Absent for a fill that is left closed. Of what is by week the sum. */
  readonly value?: number;
  readonly limit?: number;
  /** Amounts by week, for what is by week. */
  readonly byWeek?: ReadonlyMap<Week, number>;
  /** Of a shortage: how much of it is of each demand, by its identifier. */
  readonly byOrder?: ReadonlyMap<string, number>;
  /** What it depends on first: fills (`fill:R2`), varieties (`variety:Gala`), equipment (`scrubbers/S1`). */
  readonly tags: readonly string[];
}
