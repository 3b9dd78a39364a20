import { highsForWeb } from './highs-web';
import { doReleaseJob } from './worker-job';
import type { StartMessage, WorkerMessage } from './worker-protocol';

/** What a web worker's global object is used for here; the type library in use does not have it. */
interface WorkerScope {
  onmessage: ((event: { readonly data: StartMessage }) => void) | null;
  postMessage(message: WorkerMessage): void;
}

const scope = globalThis as unknown as WorkerScope;

/** The release worker in the browser: a file of its own. The solver's program comes as bytes with the start message. */
scope.onmessage = ({ data }) => {
  scope.onmessage = null;
  const { wasm } = data;
  if (wasm === 'package' || 'path' in wasm) {
    scope.postMessage({ kind: 'failed', message: 'A web worker needs the solver as bytes, not as a path.' });
    return;
  }
  void doReleaseJob(data, highsForWeb(wasm.bytes), (message) => scope.postMessage(message));
};
