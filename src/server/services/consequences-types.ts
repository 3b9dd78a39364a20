import type { Figure } from '../../plan/figure';

/** What follows for a part, its figures under names that need not say again whose they are. */
export interface ConsequencesPart {
  readonly title: string;
  readonly figures: readonly { readonly label: string; readonly figure: Figure }[];
  readonly sentences: readonly string[];
}

/** What follows from an entry: figures that can be explained, and sentences that need no explaining. */
export interface Consequences {
  readonly title: string;
  readonly figures: readonly Figure[];
  readonly sentences: readonly string[];
  /** The same of parts of it: a lot in each of its rooms. */
  readonly parts?: readonly ConsequencesPart[];
  /** True where opening a room is spoken of, so that the caution must stand beside it. */
  readonly opening?: boolean;
}
