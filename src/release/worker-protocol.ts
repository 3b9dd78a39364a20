import type { FromPricing } from './pricing-beside';
import type { Searched } from './prove-by-prices';
import type { ReleaseProblem, ReleaseProgress, ReleaseResult, SearchOptions } from './types';

/** What a solve in a worker is told; everything in it can be copied to another thread. */
export interface ReleaseJobOptions extends SearchOptions {
  readonly timeLimitSeconds: number;
  readonly gap: number;
}

/** What to ask of a solve where nobody says otherwise: some fifty rooms within one per cent in a few seconds. */
export const releaseDefaults: ReleaseJobOptions = { seed: 1, moves: 400_000, timeLimitSeconds: 8, gap: 0.01 };

/** Where the worker finds the solver's program: a path (Node only), its bytes, or where its package has it. */
export type WasmSource = { readonly path: string } | { readonly bytes: Uint8Array } | 'package';

/** The first message that a worker is sent. */
export interface StartMessage {
  /** Whether it solves, or works out prices beside a worker that does. */
  readonly kind: 'solve' | 'price';
  readonly problem: ReleaseProblem;
  readonly options: ReleaseJobOptions;
  readonly wasm: WasmSource;
  /** For one that solves: whether there is another that works out prices. */
  readonly hasPricing?: boolean | undefined;
}

/** What the two workers of a solve tell each other, handed on by whoever started them. */
export type BetweenMessage =
  | { readonly kind: 'priced'; readonly priced: FromPricing }
  | { readonly kind: 'searched'; readonly searched: Searched };

/** What a worker is sent. */
export type ToWorker = StartMessage | BetweenMessage;

/** What a worker posts. After `done` or `failed` it posts no more. */
export type WorkerMessage =
  | BetweenMessage
  | { readonly kind: 'progress'; readonly progress: ReleaseProgress }
  | { readonly kind: 'incumbent'; readonly result: ReleaseResult }
  | { readonly kind: 'done'; readonly result: ReleaseResult }
  | { readonly kind: 'failed'; readonly message: string };

/** A worker as `runRelease` needs it, whatever it runs on. Messages posted before `listen` may be lost. */
export interface ReleaseWorker {
  post(message: ToWorker): void;
  listen(onMessage: (message: WorkerMessage) => void, onFailure: (reason: string) => void): void;
  /** Ends it at once, in the middle of whatever it does. */
  terminate(): void;
}

/**
 * Seconds by the clock after which a solve ends with what it has. Its work is counted, so that it is the same on every
 * machine; this far later only a machine ends that is much slower than usual, or busy with much else.
 */
export function latestEnd({ timeLimitSeconds }: ReleaseJobOptions): number {
  return 30 + 4 * timeLimitSeconds;
}
