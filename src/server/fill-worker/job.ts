import { proposeFill } from '../../fill/propose';
import type { LoadHighs } from '../../release/linear';
import type { FillWorkerMessage, StartMessage } from './protocol';

/** Does a worker's one job: looks for fills, posting how far it is, then how it ended. */
export async function doFillJob(
  { problem, options }: StartMessage,
  loadHighs: LoadHighs,
  post: (message: FillWorkerMessage) => void,
): Promise<void> {
  try {
    const onProgress = (share: number) => post({ kind: 'progress', share });
    post({ kind: 'done', result: await proposeFill(problem, { ...options, loadHighs, onProgress }) });
  } catch (error) {
    post({ kind: 'failed', message: error instanceof Error ? error.message : String(error) });
  }
}
