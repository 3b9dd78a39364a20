import { readFile } from 'node:fs/promises';
import highsLoader from 'highs';
import type { LoadHighs } from './linear';
import { instantiateFrom } from './wasm';

/**
 * Loads the solver in Node. `wasm` is the path of `highs.wasm`, or its bytes; without it the file is looked for where
 * the package, or the bundle, has it.
 */
export function highsForNode(wasm?: string | Uint8Array): LoadHighs {
  return async () => {
    if (wasm === undefined) return highsLoader();
    const bytes = typeof wasm === 'string' ? await readFile(wasm) : wasm;
    return highsLoader(await instantiateFrom(bytes));
  };
}
