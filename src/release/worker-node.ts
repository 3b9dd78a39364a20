import { parentPort } from 'node:worker_threads';
import { highsForNode } from './highs-node';
import { releaseWorkerSide } from './worker-job';

/** The release worker in Node: a file of its own, started by `node-worker-runner.ts`. */
const take = releaseWorkerSide({
  loadHighs: (wasm) => highsForNode(wasm === 'package' ? undefined : 'path' in wasm ? wasm.path : wasm.bytes),
  post: (message) => parentPort?.postMessage(message),
  clock: () => performance.now(),
});

parentPort?.on('message', take);
