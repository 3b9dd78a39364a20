import * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions } from 'vscode-languageclient/browser';
import type { ReleaseWorker, WorkerMessage } from '../src/release/worker-protocol';
import { activateLotwright, type LotwrightApi } from './activate';
import type { ExtensionHost } from './host';

/** What is used of a web worker; the type library in use, which is Node's, does not have it. */
interface WebWorker {
  onmessage: ((event: { readonly data: WorkerMessage }) => void) | null;
  onerror: ((event: { readonly message?: string }) => void) | null;
  postMessage(message: unknown): void;
  terminate(): void;
}

declare const Worker: new (address: string) => WebWorker;

let stop: (() => Promise<void>) | undefined;

/** The editor in a browser: server and release search are web workers. */
const host: ExtensionHost = {
  createClient(dist: vscode.Uri, options: LanguageClientOptions) {
    const server = async () => startWorker(dist, 'server.js');
    return new LanguageClient('lotwright', 'Lotwright', server, options);
  },
  createReleaseWorker(dist): ReleaseWorker {
    const worker = startWorker(dist, 'release-worker.js');
    return {
      start: (message) => worker.postMessage(message),
      listen(onMessage, onFailure) {
        worker.onmessage = ({ data }) => onMessage(data);
        worker.onerror = ({ message }) => onFailure(message ?? 'its worker could not be started');
      },
      terminate: () => worker.terminate(),
    };
  },
};

function startWorker(dist: vscode.Uri, name: string) {
  return new Worker(vscode.Uri.joinPath(dist, 'web', name).toString(true));
}

export async function activate(context: vscode.ExtensionContext): Promise<LotwrightApi> {
  const { api, client } = await activateLotwright(context, host);
  stop = () => client.stop();
  return api;
}

export async function deactivate(): Promise<void> {
  await stop?.();
}
