import { highsForWeb } from './highs-web';
import { releaseWorkerSide } from './worker-job';
import type { ToWorker, WorkerMessage } from './worker-protocol';

/** What a web worker's global object is used for here; the type library in use does not have it. */
interface WorkerScope {
  onmessage: ((event: { readonly data: ToWorker }) => void) | null;
  postMessage(message: WorkerMessage): void;
}

const scope = globalThis as unknown as WorkerScope;

/** The release worker in the browser: a file of its own. The solver's program comes as bytes with the first message. */
const take = releaseWorkerSide({
  loadHighs(wasm) {
    if (wasm !== 'package' && 'bytes' in wasm) return highsForWeb(wasm.bytes);
    throw new Error('A web worker needs the solver as bytes, not as a path.');
  },
  post: (message) => scope.postMessage(message),
  clock: () => performance.now(),
});

scope.onmessage = ({ data }) => take(data);
