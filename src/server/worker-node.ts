import { workerData } from 'node:worker_threads';

/**
 * The worker in Node, one file for all that is done in workers: they are made of the same parts, and one file holds
 * them once. What it is for is told when it is started; release weeks where nothing is.
 */
if (workerData === 'fill') void import('./fill-worker/node');
else if (workerData === 'change') void import('./change-worker/node');
else if (workerData === 'draws') void import('../release/draws-worker-node');
else void import('../release/worker-node');
