import type { Plan } from '../plan/model';
import type { Problem } from '../plan/problem';

/** A plan that might be. */
export interface Overlaid {
  readonly plan: Plan;
  /** What cannot be laid over the plan, at its place in the scenario; all else is. */
  readonly problems: readonly Problem[];
}
