import { nodeWorkerThread } from './node-worker-thread';
import type { ReleaseWorker, ToWorker, WorkerMessage } from './worker-protocol';

/** A release worker on a thread of its own in Node. `file` is the bundled worker, `dist/worker.cjs`. */
export function nodeReleaseWorker(file: string): ReleaseWorker {
  return nodeWorkerThread<ToWorker, WorkerMessage>(file, 'release');
}
