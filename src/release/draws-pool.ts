import {
  type DrawsAnswer,
  type DrawsJob,
  type DrawsTask,
  type DrawsWorker,
  doDrawsTask,
} from './draws-protocol';

/** What `run` rejects with when its signal is aborted. */
export class DrawsCancelled extends Error {
  override readonly name = 'DrawsCancelled';
  constructor() {
    super('The drawing of seasons was cancelled.');
  }
}

/** Does tasks on several workers, or on this thread; the answers are the same for any number of them. */
export interface DrawsPool {
  /** Answers in the order of the tasks. `onDone` is told how many are done. */
  run(
    tasks: readonly DrawsTask[],
    options?: {
      readonly signal?: AbortSignal | undefined;
      readonly onDone?: ((done: number) => void) | undefined;
    },
  ): Promise<DrawsAnswer[]>;
  /** Ends the workers. */
  close(): void;
}

/** Does the tasks where it is called, one after the other. */
export function drawsHere(job: DrawsJob): DrawsPool {
  return {
    async run(tasks, options = {}) {
      const answers: DrawsAnswer[] = [];
      for (const task of tasks) {
        if (options.signal?.aborted) throw new DrawsCancelled();
        answers.push(doDrawsTask(job, task));
        options.onDone?.(answers.length);
      }
      return answers;
    },
    close() {},
  };
}

/** Shares tasks out to workers, each taking the next when it has done one. */
export function drawsInWorkers(job: DrawsJob, start: () => DrawsWorker, workers: number): DrawsPool {
  const idle: DrawsWorker[] = [];
  const all: DrawsWorker[] = [];
  const fresh = (): DrawsWorker => {
    const worker = start();
    worker.post({ kind: 'job', job });
    all.push(worker);
    return worker;
  };
  return {
    run(tasks, { signal, onDone } = {}) {
      return new Promise((resolve, reject) => {
        const answers = new Array<DrawsAnswer>(tasks.length);
        let [next, done, ended] = [0, 0, false];
        const end = (settle: () => void) => {
          if (ended) return;
          ended = true;
          signal?.removeEventListener('abort', cancel);
          settle();
        };
        const stopAll = () => {
          for (const worker of all.splice(0)) worker.terminate();
          idle.length = 0;
        };
        const fail = (error: Error) =>
          end(() => {
            stopAll();
            reject(error);
          });
        const cancel = () => fail(new DrawsCancelled());
        const give = (worker: DrawsWorker) => {
          const at = next++;
          const task = tasks[at];
          if (ended || !task) {
            idle.push(worker);
            return;
          }
          worker.listen(
            (message) => {
              if (message.kind === 'failed')
                return fail(new Error(`Seasons could not be drawn: ${message.message}`));
              if (message.kind !== 'done') return;
              answers[at] = message.answer;
              done += 1;
              onDone?.(done);
              give(worker);
              if (done === tasks.length) end(() => resolve(answers));
            },
            (reason) => fail(new Error(`Seasons could not be drawn: ${reason}`)),
          );
          worker.post({ kind: 'task', task });
        };
        if (signal?.aborted) return cancel();
        signal?.addEventListener('abort', cancel);
        if (tasks.length === 0) return end(() => resolve([]));
        const wanted = Math.min(workers, tasks.length);
        const ready = idle.splice(0, wanted);
        while (ready.length < wanted) ready.push(fresh());
        for (const worker of ready) give(worker);
      });
    },
    close() {
      for (const worker of all.splice(0)) worker.terminate();
      idle.length = 0;
    },
  };
}
