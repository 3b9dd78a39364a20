/**
 * The worker in the browser, one file for all that is done in workers, as in Node. What it is for is its name. A
 * message is handed out only after what was begun here: none comes before the part that is meant listens.
 */
const { name } = globalThis as unknown as { readonly name?: string };
if (name === 'fill') void import('./fill-worker/web');
else if (name === 'draws') void import('../release/draws-worker-web');
else void import('../release/worker-web');
