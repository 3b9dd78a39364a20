import type { PlanTexts, ToldChange } from '../../report/compare-told';

/** The one message a worker that compares two plans is sent. */
export interface ChangeStart {
  readonly kind: 'start';
  readonly old: PlanTexts;
  readonly now: PlanTexts;
  /** What stands before the paths in the page's links. */
  readonly linkBase: string;
}

/** What it posts, once. */
export type ChangeMessage =
  | { readonly kind: 'done'; readonly told: ToldChange }
  | { readonly kind: 'failed'; readonly message: string };

/** A worker as `runChange` needs it, whatever it runs on. */
export interface ChangeWorker {
  start(message: ChangeStart): void;
  listen(onMessage: (message: ChangeMessage) => void, onFailure: (reason: string) => void): void;
  /** Ends it at once, in the middle of whatever it does. */
  terminate(): void;
}

export type { ToldChange, ToldConsequence } from '../../report/compare-told';
