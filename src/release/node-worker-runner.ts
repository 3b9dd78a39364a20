import { Worker } from 'node:worker_threads';
import type { ReleaseWorker, WorkerMessage } from './worker-protocol';

/** A release worker on a thread of its own in Node. `file` is the bundled worker, `dist/worker.cjs`. */
export function nodeReleaseWorker(file: string): ReleaseWorker {
  const worker = new Worker(file, { workerData: 'release' });
  return {
    start: (message) => worker.postMessage(message),
    listen(onMessage, onFailure) {
      worker.on('message', (message: WorkerMessage) => onMessage(message));
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
