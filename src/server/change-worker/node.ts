import { parentPort } from 'node:worker_threads';
import { doChangeJob } from './job';
import type { ChangeStart } from './protocol';

/** The worker in Node: a file of its own, started by `node-runner.ts`. */
parentPort?.once('message', (message: ChangeStart) => parentPort?.postMessage(doChangeJob(message)));
