import type { FillOptions, FillProblem, FillResult } from '../../fill/types';
import type { WasmSource } from '../../release/worker-protocol';

/** What a search for fills in a worker is told; everything in it can be copied to another thread. */
export interface FillJobOptions extends FillOptions {
  /** For the exact model, where the rooms are few. */
  readonly timeLimitSeconds: number;
}

/** What to ask where nobody says otherwise: the same as the command line's, so that both propose the same. */
export const fillDefaults: FillJobOptions = { seed: 1, moves: 2000, timeLimitSeconds: 10 };

/** The one message a worker is sent. */
export interface StartMessage {
  readonly kind: 'start';
  readonly problem: FillProblem;
  readonly options: FillJobOptions;
  readonly wasm: WasmSource;
}

/** What a worker posts. After `done` or `failed` it posts no more. */
export type FillWorkerMessage =
  | { readonly kind: 'progress'; readonly share: number }
  | { readonly kind: 'done'; readonly result: FillResult }
  | { readonly kind: 'failed'; readonly message: string };

/** A worker as `runFill` needs it, whatever it runs on. Messages posted before `listen` may be lost. */
export interface FillWorker {
  start(message: StartMessage): void;
  listen(onMessage: (message: FillWorkerMessage) => void, onFailure: (reason: string) => void): void;
  /** Ends it at once, in the middle of whatever it does. */
  terminate(): void;
}
