import type { InitOptions } from 'highs';

/** The part of the WebAssembly interface used here; the type library in use does not have it. */
interface WebAssemblyInterface {
  compile(bytes: Uint8Array): Promise<object>;
  instantiate(module: object, imports: object): Promise<object>;
}

/** Options of the solver's loader with the hook that its types leave out. */
interface LoaderOptions extends InitOptions {
  instantiateWasm(imports: object, done: (instance: object, module: object) => void): object;
}

/**
 * Loader options that take the solver's program from bytes. The loader documents `wasmBinary` and does not heed it;
 * this hook, which all programs of its compiler have, it does. The version is pinned and a test holds it.
 */
export async function instantiateFrom(bytes: Uint8Array): Promise<InitOptions> {
  const { WebAssembly } = globalThis as unknown as { readonly WebAssembly: WebAssemblyInterface };
  const module = await WebAssembly.compile(bytes);
  const options: LoaderOptions = {
    instantiateWasm(imports, done) {
      WebAssembly.instantiate(module, imports).then((instance) => done(instance, module));
      return {};
    },
  };
  return options;
}
