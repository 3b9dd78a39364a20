import type { Uri } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import type { ReleaseWorker } from '../src/release/worker-protocol';
import type { FillWorker } from '../src/server/fill-worker/protocol';

/** What differs between the desktop's extension host, which is Node, and the web's, which is a worker. */
export interface ExtensionHost {
  /** `dist` is the folder of the extension's built files. */
  createClient(dist: Uri, options: LanguageClientOptions): BaseLanguageClient;
  createReleaseWorker(dist: Uri): Promise<ReleaseWorker>;
  createFillWorker(dist: Uri): Promise<FillWorker>;
}
