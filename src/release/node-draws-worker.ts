import type { DrawsWorker, FromDrawsWorker, ToDrawsWorker } from './draws-protocol';
import { nodeWorkerThread } from './node-worker-thread';

/** A worker that draws seasons, on a thread of its own in Node. `file` is the bundled one, `dist/worker.cjs`. */
export function nodeDrawsWorker(file: string): DrawsWorker {
  return nodeWorkerThread<ToDrawsWorker, FromDrawsWorker>(file, 'draws');
}
