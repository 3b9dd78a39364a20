import type { FromDrawsWorker, ToDrawsWorker } from './draws-protocol';
import { drawsWorkerSide } from './draws-worker-side';

/** What a web worker's global object is used for here; the type library in use does not have it. */
interface WorkerScope {
  onmessage: ((event: { readonly data: ToDrawsWorker }) => void) | null;
  postMessage(message: FromDrawsWorker): void;
}

const scope = globalThis as unknown as WorkerScope;
const receive = drawsWorkerSide((message) => scope.postMessage(message));

/** The worker that draws seasons, in the browser. */
scope.onmessage = ({ data }) => receive(data);
