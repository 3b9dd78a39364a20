import { Worker } from 'node:worker_threads';

/** A worker on a thread of its own in Node, as its messages go both ways. */
export interface NodeWorkerThread<To, From> {
  post(message: To): void;
  /** Hears from now on; whoever listened before hears no more. */
  listen(onMessage: (message: From) => void, onFailure: (reason: string) => void): void;
  /** Ends it at once, in the middle of whatever it does. */
  terminate(): void;
}

/** Starts the bundled worker, `dist/worker.cjs`, for one of the things that are done in workers. */
export function nodeWorkerThread<To, From>(
  file: string,
  purpose: 'release' | 'fill' | 'draws' | 'change',
): NodeWorkerThread<To, From> {
  const worker = new Worker(file, { workerData: purpose });
  return {
    post: (message) => worker.postMessage(message),
    listen(onMessage, onFailure) {
      worker.removeAllListeners();
      worker.on('message', (message: From) => onMessage(message));
      worker.on('error', (error) => onFailure(error.message));
      worker.on('exit', (code) => onFailure(`its worker ended with code ${code}`));
    },
    terminate() {
      worker.removeAllListeners();
      // An error on the way down has nobody left to hear it, and must not bring the process down.
      worker.on('error', () => {});
      void worker.terminate();
    },
  };
}
