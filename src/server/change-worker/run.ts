import type { ToldChange } from '../../report/compare-told';
import type { ChangeStart, ChangeWorker } from './protocol';

/** Compares two plans in a worker. Undefined when `signal` ended it; rejects in plain words when it fails. */
export function runChange(
  worker: ChangeWorker,
  start: Omit<ChangeStart, 'kind'>,
  signal: AbortSignal,
): Promise<ToldChange | undefined> {
  return new Promise((resolve, reject) => {
    let ended = false;
    const end = (settle: () => void) => {
      if (ended) return;
      ended = true;
      signal.removeEventListener('abort', cancel);
      worker.terminate();
      settle();
    };
    const cancel = () => end(() => resolve(undefined));
    const fail = (reason: string) =>
      end(() => reject(new Error(`The plans could not be compared: ${reason}`)));
    if (signal.aborted) {
      cancel();
      return;
    }
    signal.addEventListener('abort', cancel);
    worker.listen((message) => {
      if (message.kind === 'done') end(() => resolve(message.told));
      else fail(message.message);
    }, fail);
    worker.start({ kind: 'start', ...start });
  });
}
