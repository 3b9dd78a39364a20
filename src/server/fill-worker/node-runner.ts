import { nodeWorkerThread } from '../../release/node-worker-thread';
import type { FillWorker, FillWorkerMessage, StartMessage } from './protocol';

/** A fill worker on a thread of its own in Node. `file` is the bundled worker, `dist/worker.cjs`. */
export function nodeFillWorker(file: string): FillWorker {
  const { post, listen, terminate } = nodeWorkerThread<StartMessage, FillWorkerMessage>(file, 'fill');
  return { start: post, listen, terminate };
}
