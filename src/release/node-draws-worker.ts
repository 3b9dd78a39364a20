import { Worker } from 'node:worker_threads';
import type { DrawsWorker, FromDrawsWorker } from './draws-protocol';

/** A worker that draws seasons, on a thread of its own in Node. `file` is the bundled one, `dist/worker.cjs`. */
export function nodeDrawsWorker(file: string): DrawsWorker {
  const worker = new Worker(file, { workerData: 'draws' });
  return {
    post: (message) => worker.postMessage(message),
    listen(onMessage, onFailure) {
      worker.removeAllListeners();
      worker.on('message', (message: FromDrawsWorker) => onMessage(message));
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
