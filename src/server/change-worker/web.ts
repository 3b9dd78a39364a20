import { doChangeJob } from './job';
import type { ChangeMessage, ChangeStart } from './protocol';

/** What a web worker's global object is used for here; the type library in use does not have it. */
interface WorkerScope {
  onmessage: ((event: { readonly data: ChangeStart }) => void) | null;
  postMessage(message: ChangeMessage): void;
}

const scope = globalThis as unknown as WorkerScope;

/** The worker in the browser: a file of its own. */
scope.onmessage = ({ data }) => {
  scope.onmessage = null;
  scope.postMessage(doChangeJob(data));
};
