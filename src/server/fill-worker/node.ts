import { parentPort } from 'node:worker_threads';
import { highsForNode } from '../../release/highs-node';
import { doFillJob } from './job';
import type { StartMessage } from './protocol';

/** The fill worker in Node: a file of its own, started by `node-runner.ts`. */
parentPort?.once('message', (message: StartMessage) => {
  const { wasm } = message;
  const from = wasm === 'package' ? undefined : 'path' in wasm ? wasm.path : wasm.bytes;
  void doFillJob(message, highsForNode(from), (posted) => parentPort?.postMessage(posted));
});
