// Before all else: what is imported first is run first.
import './first-server';
import * as vscode from 'vscode';
import { LanguageClient, type LanguageClientOptions } from 'vscode-languageclient/node';
import { nodeDrawsWorker } from '../src/release/node-draws-worker';
import { nodeReleaseWorker } from '../src/release/node-worker-runner';
import { nodeChangeWorker } from '../src/server/change-worker/node-runner';
import { nodeDisk } from '../src/server/disk/node-disk';
import { nodeFillWorker } from '../src/server/fill-worker/node-runner';
import { activateLotwright, type LotwrightApi } from './activate';
import { provideCheckTasks } from './check-tasks';
import { beganAt, firstServer } from './first-server';
import type { ExtensionHost } from './host';
import { ServerProcess } from './server-process';

let stop: (() => Promise<void>) | undefined;

/** The desktop, and a server that an editor in a browser is connected to: the server is a process of its own. */
const host: ExtensionHost = {
  createClient(dist: vscode.Uri, options: LanguageClientOptions, log: vscode.LogOutputChannel) {
    const server = new ServerProcess(vscode.Uri.joinPath(dist, 'server.cjs').fsPath, log, firstServer);
    const client = new LanguageClient('lotwright', 'Lotwright', server.transports, options);
    stop = async () => {
      await client.stop();
      await server.end();
    };
    return client;
  },
  releaseWorkers: async (dist) => {
    const file = vscode.Uri.joinPath(dist, 'worker.cjs').fsPath;
    return () => nodeReleaseWorker(file);
  },
  drawsWorkers: async (dist) => {
    const file = vscode.Uri.joinPath(dist, 'worker.cjs').fsPath;
    return () => nodeDrawsWorker(file);
  },
  createChangeWorker: async (dist) => nodeChangeWorker(vscode.Uri.joinPath(dist, 'worker.cjs').fsPath),
  createFillWorker: async (dist) => nodeFillWorker(vscode.Uri.joinPath(dist, 'worker.cjs').fsPath),
  disk: nodeDisk,
  beganAt,
};

export async function activate(context: vscode.ExtensionContext): Promise<LotwrightApi> {
  const { api } = await activateLotwright(context, host);
  context.subscriptions.push(provideCheckTasks(vscode.Uri.joinPath(context.extensionUri, 'dist')));
  return api;
}

export async function deactivate(): Promise<void> {
  await stop?.();
}
