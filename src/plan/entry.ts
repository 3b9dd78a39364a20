import type { PlaceNode, Span } from './span';

/** What every entry has: its identifier, the key's place, and the places of all its values. */
export interface Entry {
  readonly id: string;
  /** The identifier where it is defined. */
  readonly at: Span;
  readonly places: PlaceNode;
}
