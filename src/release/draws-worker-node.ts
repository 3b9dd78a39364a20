import { parentPort } from 'node:worker_threads';
import type { ToDrawsWorker } from './draws-protocol';
import { drawsWorkerSide } from './draws-worker-side';

/** The worker that draws seasons, in Node: a file of its own. */
const receive = drawsWorkerSide((posted) => parentPort?.postMessage(posted));

parentPort?.on('message', (message: ToDrawsWorker) => receive(message));
