import type { ReferableSection } from './schema/values';
import type { Span } from './span';

export interface Reference {
  readonly section: ReferableSection;
  readonly id: string;
  readonly at: Span;
  /** Present where a scenario names it: nothing of the plan itself hangs on it. */
  readonly scenario?: string;
}

/** `# lotwright: allow <code> -- <reason>` at the end of a line or on the line above what it allows. */
export interface Allowance {
  readonly code: string;
  readonly reason: string;
  /** The comment. */
  readonly at: Span;
  /** The text it covers: the line it stands on, or the entry or line below it. */
  readonly covers: Span;
}
