import type { Figure } from '../../plan/figure';

/** What follows from an entry: figures that can be explained, and sentences that need no explaining. */
export interface Consequences {
  readonly title: string;
  readonly figures: readonly Figure[];
  readonly sentences: readonly string[];
  /** True where opening a room is spoken of, so that the caution must stand beside it. */
  readonly opening?: boolean;
}
