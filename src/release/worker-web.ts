import type { ToDrawsWorker } from './draws-protocol';
import { drawsWorkerSide } from './draws-worker-side';
import { highsForWeb } from './highs-web';
import { doReleaseJob } from './worker-job';
import type { StartMessage } from './worker-protocol';

/** What a web worker's global object is used for here; the type library in use does not have it. */
interface WorkerScope {
  onmessage: ((event: { readonly data: StartMessage | ToDrawsWorker }) => void) | null;
  postMessage(message: unknown): void;
}

const scope = globalThis as unknown as WorkerScope;
const draw = drawsWorkerSide((message) => scope.postMessage(message));

/**
 * The release worker in the browser: a file of its own. It solves, the solver's program coming as bytes with the start
 * message, or draws seasons: both are made of the same parts, and one file holds them once.
 */
scope.onmessage = ({ data }) => {
  if (data.kind === 'start') solve(data);
  else draw(data);
};

function solve(message: StartMessage): void {
  scope.onmessage = null;
  const { wasm } = message;
  if (wasm === 'package' || 'path' in wasm) {
    scope.postMessage({ kind: 'failed', message: 'A web worker needs the solver as bytes, not as a path.' });
    return;
  }
  void doReleaseJob(message, highsForWeb(wasm.bytes), (posted) => scope.postMessage(posted));
}
