import { tellChange } from '../../report/compare-told';
import type { ChangeMessage, ChangeStart } from './protocol';

/** Does a worker's one job. Never throws. */
export function doChangeJob({ old, now, linkBase }: ChangeStart): ChangeMessage {
  try {
    return { kind: 'done', told: tellChange(old, now, linkBase) };
  } catch (error) {
    return { kind: 'failed', message: error instanceof Error ? error.message : String(error) };
  }
}
