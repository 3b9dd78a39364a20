import type { AcrossDraws, AcrossProgress } from './across-types';
import { DrawsCancelled, type DrawsPool } from './draws-pool';
import type { DrawsJob, DrawsWorker, SeekTask } from './draws-protocol';

export interface SeekOptions {
  /** Does what the search asks for: seasons added up, candidates ranked. */
  readonly pool: DrawsPool;
  /** A fresh worker, for the search itself. */
  readonly start: () => DrawsWorker;
  readonly signal?: AbortSignal | undefined;
  readonly onProgress?: ((progress: AcrossProgress) => void) | undefined;
}

/**
 * Seeks a schedule that is good across draws, all of it in workers: one that searches, and those of the pool. Rejects
 * with `DrawsCancelled` when aborted. The same as `scheduleAcrossDraws` for any number of workers.
 */
export function seekInWorkers(
  job: DrawsJob,
  task: SeekTask,
  { pool, start, signal, onProgress }: SeekOptions,
): Promise<AcrossDraws> {
  return new Promise((resolve, reject) => {
    const worker = start();
    const end = (settle: () => void) => {
      signal?.removeEventListener('abort', cancel);
      worker.terminate();
      settle();
    };
    const fail = (error: unknown) => end(() => reject(error));
    const cancel = () => fail(new DrawsCancelled());
    if (signal?.aborted) return cancel();
    signal?.addEventListener('abort', cancel);
    worker.listen(
      (message) => {
        switch (message.kind) {
          case 'ask':
            pool
              .run(message.tasks, { signal, onDone: (done) => worker.post({ kind: 'tasksDone', done }) })
              .then((answers) => worker.post({ kind: 'answers', answers }), fail);
            return;
          case 'progress':
            onProgress?.(message.progress);
            return;
          case 'found':
            end(() => resolve(message.across));
            return;
          case 'failed':
            fail(new Error(`No schedule could be sought across seasons: ${message.message}`));
        }
      },
      (reason) => fail(new Error(`No schedule could be sought across seasons: ${reason}`)),
    );
    worker.post({ kind: 'job', job });
    worker.post({ kind: 'seek', task });
  });
}
