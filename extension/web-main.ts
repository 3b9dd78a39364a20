import * as vscode from 'vscode';
import {
  BrowserMessageReader,
  BrowserMessageWriter,
  LanguageClient,
  type LanguageClientOptions,
} from 'vscode-languageclient/browser';
import type { DrawsWorker, FromDrawsWorker } from '../src/release/draws-protocol';
import type { ReleaseWorker, WorkerMessage } from '../src/release/worker-protocol';
import type { ChangeMessage, ChangeStart, ChangeWorker } from '../src/server/change-worker/protocol';
import type {
  StartMessage as FillStart,
  FillWorker,
  FillWorkerMessage,
} from '../src/server/fill-worker/protocol';
import { activateLotwright, type LotwrightApi } from './activate';
import type { ExtensionHost } from './host';

/** What is used of a web worker; the type library in use, which is Node's, does not have it. */
interface WebWorker<Message> {
  onmessage: ((event: { readonly data: Message }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
  postMessage(message: unknown): void;
  terminate(): void;
}

declare const Worker: new <Message>(address: string) => WebWorker<Message>;

/** One file for all that is done in workers; what one is for is its first message. */
const WORKER = 'worker.js';

let stop: (() => Promise<void>) | undefined;

/** The editor in a browser: server and release search are web workers. */
const host: ExtensionHost = {
  createClient(dist: vscode.Uri, options: LanguageClientOptions) {
    const server = async () => {
      const worker = new Worker(await workerAddress(dist, 'server.js'));
      return { reader: new BrowserMessageReader(worker), writer: new BrowserMessageWriter(worker) };
    };
    return new LanguageClient('lotwright', 'Lotwright', server, options);
  },
  async releaseWorkers(dist) {
    const address = await workerAddress(dist, WORKER);
    return (): ReleaseWorker => namedWorker<WorkerMessage>(address, 'release');
  },
  async drawsWorkers(dist) {
    const address = await workerAddress(dist, WORKER);
    return (): DrawsWorker => namedWorker<FromDrawsWorker>(address, 'draws');
  },
  // The server's file has all that comparing takes.
  createChangeWorker: (dist): Promise<ChangeWorker> =>
    webWorker<ChangeStart, ChangeMessage>(dist, 'change', 'server.js'),
  createFillWorker: (dist): Promise<FillWorker> => webWorker<FillStart, FillWorkerMessage>(dist, 'fill'),
};

/** A worker whose address is known, told what it is for. */
function namedWorker<Message>(address: string, purpose: 'release' | 'draws' | 'fill' | 'change') {
  const worker = new Worker<Message>(address);
  worker.postMessage({ purpose });
  return {
    post: (message: unknown) => worker.postMessage(message),
    listen(onMessage: (message: Message) => void, onFailure: (reason: string) => void) {
      worker.onmessage = ({ data }) => onMessage(data);
      worker.onerror = ({ message }) => onFailure(message ?? 'its worker could not be started');
    },
    terminate: () => worker.terminate(),
  };
}

async function webWorker<Start, Message>(dist: vscode.Uri, purpose: 'fill' | 'change', file = WORKER) {
  const { post, ...others } = namedWorker<Message>(await workerAddress(dist, file), purpose);
  return { start: (message: Start) => post(message), ...others };
}

/**
 * A browser cannot fetch a worker's script from a remote machine's disk, where a browser that is connected to one has
 * its extensions: such a script is read first and started from its text.
 */
async function workerAddress(dist: vscode.Uri, name: string): Promise<string> {
  const script = vscode.Uri.joinPath(dist, 'web', name);
  if (script.scheme !== 'vscode-remote') return script.toString(true);
  const text = await vscode.workspace.fs.readFile(script);
  return URL.createObjectURL(new Blob([text], { type: 'text/javascript' }));
}

export async function activate(context: vscode.ExtensionContext): Promise<LotwrightApi> {
  const { api, client } = await activateLotwright(context, host);
  stop = () => client.stop();
  return api;
}

export async function deactivate(): Promise<void> {
  await stop?.();
}
