import { nodeWorkerThread } from './node-worker-thread';
import type { ReleaseWorker, StartMessage, WorkerMessage } from './worker-protocol';

/** A release worker on a thread of its own in Node. `file` is the bundled worker, `dist/worker.cjs`. */
export function nodeReleaseWorker(file: string): ReleaseWorker {
  const { post, listen, terminate } = nodeWorkerThread<StartMessage, WorkerMessage>(file, 'release');
  return { start: post, listen, terminate };
}
