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

/** The one message a worker is sent. */
export interface StartMessage {
  readonly kind: 'start';
  readonly problem: ReleaseProblem;
  readonly options: ReleaseJobOptions;
  readonly wasm: WasmSource;
}

/** What a worker posts. After `done` or `failed` it posts no more. */
export type WorkerMessage =
  | { readonly kind: 'progress'; readonly progress: ReleaseProgress }
  | { readonly kind: 'incumbent'; readonly result: ReleaseResult }
  | { readonly kind: 'done'; readonly result: ReleaseResult }
  | { readonly kind: 'failed'; readonly message: string };

/** A worker as `runRelease` needs it, whatever it runs on. Messages posted before `listen` may be lost. */
export interface ReleaseWorker {
  start(message: StartMessage): void;
  listen(onMessage: (message: WorkerMessage) => void, onFailure: (reason: string) => void): void;
  /** Ends it at once, in the middle of whatever it does. */
  terminate(): void;
}
