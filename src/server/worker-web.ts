/** What a web worker's global object is used for here; the type library in use does not have it. */
interface WorkerScope {
  onmessage: ((event: { readonly data: { readonly purpose: 'release' | 'fill' | 'draws' } }) => void) | null;
}

const scope = globalThis as unknown as WorkerScope;

/**
 * The worker in the browser, one file for all that is done in workers, as in Node. What it is for is its first message;
 * a name would not do, since the editor gives workers names of its own. The part that is meant listens before the next
 * message is handed out.
 */
scope.onmessage = ({ data }) => {
  scope.onmessage = null;
  if (data.purpose === 'fill') void import('./fill-worker/web');
  else if (data.purpose === 'draws') void import('../release/draws-worker-web');
  else void import('../release/worker-web');
};
