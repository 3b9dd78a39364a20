import type { EntrySection, ItemKind } from './check/item-kinds';
import type { Entry } from './entry';
import type { Figure } from './figure';
import type { Given, Span } from './span';

/** A plan that might be, laid over the plan: what differs, and nothing else. */
export interface Scenario extends Entry {
  /** What might come, in the planner's words. */
  readonly says: string | undefined;
  /** Of every lot and fill, per cent of what the plan has. */
  readonly crop: Figure<'%'> | undefined;
  readonly cropOf: ReadonlyMap<string, Figure<'%'>>;
  /** Of every order, per cent of what the plan has. */
  readonly demand: Figure<'%'> | undefined;
  readonly demandOf: ReadonlyMap<string, Figure<'%'>>;
  /** By which all orders come later, and earlier. */
  readonly demandLater: Figure<'days'> | undefined;
  readonly demandEarlier: Figure<'days'> | undefined;
  /** Entries changed and added: where they stand in the scenario. What is in them is read when it is laid over. */
  readonly overlays: readonly Overlay[];
  readonly takenOut: readonly TakenOut[];
}

/** An entry, or a section that stands once, that the scenario changes or adds. */
export interface Overlay {
  readonly how: 'change' | 'add';
  readonly kind: ItemKind;
  /** The section's own name for a section that stands once. */
  readonly id: string;
  /** Its key. */
  readonly at: Span;
  /** What stands under the key. */
  readonly value: Span;
  /** The same as text, its keys in order: equal where the content is. */
  readonly says: string;
}

export interface TakenOut {
  readonly section: EntrySection | 'pins';
  readonly id: Given<string>;
}
