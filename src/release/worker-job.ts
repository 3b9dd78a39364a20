import type { LoadHighs } from './linear';
import { solveRelease } from './solve';
import type { StartMessage, WorkerMessage } from './worker-protocol';

/** Does a worker's one job: solves, posting progress and each better schedule, then how it ended. */
export async function doReleaseJob(
  message: StartMessage,
  loadHighs: LoadHighs,
  post: (message: WorkerMessage) => void,
): Promise<void> {
  try {
    const result = await solveRelease(message.problem, {
      ...message.options,
      loadHighs,
      onProgress: (progress) => post({ kind: 'progress', progress }),
      onIncumbent: (incumbent) => post({ kind: 'incumbent', result: incumbent }),
    });
    post({ kind: 'done', result });
  } catch (error) {
    post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
}
