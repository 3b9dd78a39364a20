import highsLoader from 'highs';
import type { LoadHighs } from './linear';
import { instantiateFrom } from './wasm';

/** Loads the solver in a web worker from the bytes of `highs.wasm`, so that nothing is fetched. */
export function highsForWeb(wasm: Uint8Array): LoadHighs {
  return async () => highsLoader(await instantiateFrom(wasm));
}
