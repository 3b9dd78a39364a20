import type { FillProblem, FillResult } from '../../fill/types';
import type { WasmSource } from '../../release/worker-protocol';
import type { FillJobOptions, FillWorker } from './protocol';

/** What `runFill` rejects with when its signal is aborted. */
export class FillCancelled extends Error {
  override readonly name = 'FillCancelled';

  constructor() {
    super('The fill proposal was cancelled.');
  }
}

export interface RunFillOptions {
  readonly worker: FillWorker;
  readonly wasm: WasmSource;
  readonly onProgress?: ((share: number) => void) | undefined;
  /** Aborting ends the worker at once. */
  readonly signal?: AbortSignal | undefined;
}

/** Looks for fills in a worker. Rejects with `FillCancelled` when aborted, with an error in plain words when it fails. */
export function runFill(
  problem: FillProblem,
  options: FillJobOptions,
  { worker, wasm, onProgress, signal }: RunFillOptions,
): Promise<FillResult> {
  return new Promise((resolve, reject) => {
    let ended = false;
    const end = (settle: () => void) => {
      if (ended) return;
      ended = true;
      signal?.removeEventListener('abort', cancel);
      worker.terminate();
      settle();
    };
    const cancel = () => end(() => reject(new FillCancelled()));
    const fail = (reason: string) => end(() => reject(new Error(`Fills could not be proposed: ${reason}`)));
    if (signal?.aborted) {
      cancel();
      return;
    }
    signal?.addEventListener('abort', cancel);
    worker.listen((message) => {
      if (message.kind === 'progress') onProgress?.(message.share);
      else if (message.kind === 'done') end(() => resolve(message.result));
      else fail(message.message);
    }, fail);
    worker.start({ kind: 'start', problem, options, wasm });
  });
}
