import { scheduleAcrossDraws } from './across-draws';
import type { AcrossProgress } from './across-types';
import type { DrawsPool } from './draws-pool';
import {
  type DrawsAnswer,
  type DrawsJob,
  doDrawsTask,
  type FromDrawsWorker,
  type SeekTask,
  type ToDrawsWorker,
} from './draws-protocol';

/** Tasks that this worker has asked others to do, and waits for. */
interface Asked {
  resolve(answers: DrawsAnswer[]): void;
  onDone(done: number): void;
}

/** What a worker that draws seasons does with each message, in Node and in the browser alike. */
export function drawsWorkerSide(post: (message: FromDrawsWorker) => void): (message: ToDrawsWorker) => void {
  let job: DrawsJob | undefined;
  let asked: Asked | undefined;
  const fail = (error: unknown) =>
    post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  const others: DrawsPool = {
    run: (tasks, { onDone } = {}) =>
      new Promise((resolve) => {
        asked = { resolve, onDone: (done) => onDone?.(done) };
        post({ kind: 'ask', tasks });
      }),
    close() {},
  };
  const seek = async ({ problem }: DrawsJob, { start, ...options }: SeekTask) => {
    const onProgress = (progress: AcrossProgress) => post({ kind: 'progress', progress });
    const across = await scheduleAcrossDraws(problem, start, others, { ...options, onProgress });
    post({ kind: 'found', across });
  };
  return (message) => {
    switch (message.kind) {
      case 'job':
        job = message.job;
        return;
      case 'tasksDone':
        asked?.onDone(message.done);
        return;
      case 'answers':
        asked?.resolve([...message.answers]);
        return;
      default:
        if (!job) fail('a task came before its job');
        else if (message.kind === 'seek') seek(job, message.task).catch(fail);
        else
          try {
            post({ kind: 'done', answer: doDrawsTask(job, message.task) });
          } catch (error) {
            fail(error);
          }
    }
  };
}
