import { parentPort } from 'node:worker_threads';
import { type DrawsJob, doDrawsTask, type FromDrawsWorker, type ToDrawsWorker } from './draws-protocol';

/** The worker that draws seasons, in Node: a file of its own. */
let job: DrawsJob | undefined;

parentPort?.on('message', (message: ToDrawsWorker) => {
  if (message.kind === 'job') {
    job = message.job;
    return;
  }
  const post = (posted: FromDrawsWorker) => parentPort?.postMessage(posted);
  if (!job) return post({ kind: 'failed', message: 'a task came before its job' });
  try {
    post({ kind: 'done', answer: doDrawsTask(job, message.task) });
  } catch (error) {
    post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
});
