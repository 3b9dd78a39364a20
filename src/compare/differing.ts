import type { Field } from './fields';
import type { PlanThing } from './things';
import type { Thing } from './types';

/** A thing that says something else in the two plans, or stands in one of them only. */
export interface Differing {
  readonly thing: Thing;
  readonly old?: PlanThing;
  readonly now?: PlanThing;
  readonly oldFields: ReadonlyMap<string, Field>;
  readonly nowFields: ReadonlyMap<string, Field>;
  /** Paths of the fields that differ. */
  readonly paths: readonly string[];
}
