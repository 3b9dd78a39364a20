import { nodeWorkerThread } from '../../release/node-worker-thread';
import type { ChangeMessage, ChangeStart, ChangeWorker } from './protocol';

/** A worker that compares two plans, on a thread of its own in Node. `file` is the bundled worker, `dist/worker.cjs`. */
export function nodeChangeWorker(file: string): ChangeWorker {
  const { post, listen, terminate } = nodeWorkerThread<ChangeStart, ChangeMessage>(file, 'change');
  return { start: post, listen, terminate };
}
