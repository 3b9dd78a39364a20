import type { Span } from '../../plan/span';

export interface CompletionItem {
  readonly label: string;
  readonly kind: 'key' | 'value' | 'entry' | 'unit';
  readonly detail: string;
  readonly documentation: string;
  /** Replaces the half-written word. */
  readonly newText: string;
  /** The same with its values as places to be filled one after the other, as the protocol's snippets write them. */
  readonly snippet?: string;
  readonly at: Span;
  /** Items are shown in this order. */
  readonly order: number;
}

/** An item before its place and order are known. */
export type Proposal = Omit<CompletionItem, 'at' | 'order'>;
