import type { LogOutputChannel, Uri } from 'vscode';
import type { BaseLanguageClient, LanguageClientOptions } from 'vscode-languageclient';
import type { DrawsWorker } from '../src/release/draws-protocol';
import type { ReleaseWorker } from '../src/release/worker-protocol';
import type { ChangeWorker } from '../src/server/change-worker/protocol';
import type { Disk } from '../src/server/disk/walked-files';
import type { FillWorker } from '../src/server/fill-worker/protocol';

/** What differs between the desktop's extension host, which is Node, and the web's, which is a worker. */
export interface ExtensionHost {
  /** `dist` is the folder of the extension's built files. */
  createClient(dist: Uri, options: LanguageClientOptions, log: LogOutputChannel): BaseLanguageClient;
  /** What starts a worker for the release search, as many times as it takes. */
  releaseWorkers(dist: Uri): Promise<() => ReleaseWorker>;
  /** What starts a worker that draws seasons, as many times as there are to be workers. */
  drawsWorkers(dist: Uri): Promise<() => DrawsWorker>;
  createFillWorker(dist: Uri): Promise<FillWorker>;
  createChangeWorker(dist: Uri): Promise<ChangeWorker>;
  /** For `file:` addresses; absent where there is none. */
  readonly disk?: Disk;
  /** When the extension's code began to be read, as `performance.now()` tells it; absent where nothing was begun then. */
  readonly beganAt?: number;
}
