import { parentPort } from 'node:worker_threads';
import { highsForNode } from './highs-node';
import { doReleaseJob } from './worker-job';
import type { StartMessage } from './worker-protocol';

/** The release worker in Node: a file of its own, started by `node-worker-runner.ts`. */
parentPort?.once('message', (message: StartMessage) => {
  const { wasm } = message;
  const from = wasm === 'package' ? undefined : 'path' in wasm ? wasm.path : wasm.bytes;
  void doReleaseJob(message, highsForNode(from), (posted) => parentPort?.postMessage(posted));
});
