import { paysBeside } from './proof-sizes';
import type { ReleaseProblem, ReleaseProgress, ReleaseResult } from './types';
import type { ReleaseJobOptions, ReleaseWorker, WasmSource } from './worker-protocol';

/** What `runRelease` rejects with when its signal is aborted. */
export class ReleaseCancelled extends Error {
  override readonly name = 'ReleaseCancelled';

  constructor(
    /** The best schedule there was by then, if any: complete, with the bound known at the time. */
    readonly best: ReleaseResult | undefined,
  ) {
    super('The release schedule was cancelled.');
  }
}

export interface RunOptions {
  /** A fresh worker: each solve has its own, one or two, so that memory goes back when it ends. */
  readonly createWorker: () => ReleaseWorker;
  readonly wasm: WasmSource;
  readonly onProgress?: ((progress: ReleaseProgress) => void) | undefined;
  readonly onIncumbent?: ((result: ReleaseResult) => void) | undefined;
  /** Aborting ends the worker at once. */
  readonly signal?: AbortSignal | undefined;
}

/**
 * Solves in a worker, with a second one beside it that works out prices where there are rooms enough: what is found is the
 * same with one. Rejects with `ReleaseCancelled` when aborted, and with an error in plain words when a worker fails.
 */
export function runRelease(
  problem: ReleaseProblem,
  given: ReleaseJobOptions,
  run: RunOptions,
): Promise<ReleaseResult> {
  return new Promise((resolve, reject) => {
    let best: ReleaseResult | undefined;
    if (run.signal?.aborted) {
      reject(new ReleaseCancelled(best));
      return;
    }
    const hasPricing = paysBeside(problem);
    const solving = run.createWorker();
    const pricing = hasPricing ? run.createWorker() : undefined;
    let ended = false;
    const end = (settle: () => void) => {
      if (ended) return;
      ended = true;
      run.signal?.removeEventListener('abort', cancel);
      solving.terminate();
      pricing?.terminate();
      settle();
    };
    const cancel = () => end(() => reject(new ReleaseCancelled(best)));
    const fail = (reason: string) =>
      end(() => reject(new Error(`The release schedule could not be computed: ${reason}`)));
    run.signal?.addEventListener('abort', cancel);
    solving.listen((message) => {
      if (message.kind === 'progress') run.onProgress?.(message.progress);
      else if (message.kind === 'incumbent') {
        best = message.result;
        run.onIncumbent?.(message.result);
      } else if (message.kind === 'done') end(() => resolve(message.result));
      else if (message.kind === 'failed') fail(message.message);
      else pricing?.post(message);
    }, fail);
    pricing?.listen((message) => {
      if (message.kind === 'failed') fail(message.message);
      else if (message.kind === 'priced') solving.post(message);
    }, fail);
    // Only the numbers of a job cross to the workers, whatever else the caller's object holds.
    const { seed, moves, timeLimitSeconds, gap } = given;
    const options = { seed, moves, timeLimitSeconds, gap };
    pricing?.post({ kind: 'price', problem, options, wasm: run.wasm });
    solving.post({ kind: 'solve', problem, options, wasm: run.wasm, hasPricing });
  });
}
