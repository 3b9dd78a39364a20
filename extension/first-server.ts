import path from 'node:path';
import * as vscode from 'vscode';
import type { AheadMessage } from '../src/server/protocol-ahead';
import { begunServer } from './begun-server';
import { foldersOnDisk } from './folders-on-disk';

/** When the extension's code began to be read, as `performance.now()` tells it. */
export const beganAt = performance.now();

/** The first process of the server, begun while the rest of the extension's code is still being read. */
export const firstServer = begunServer(path.join(__dirname, 'server.cjs'));

sayAhead();

/** The folders, where all of them lie on the disk: the server computes their plans before anybody can ask it to. */
function sayAhead(): void {
  const folders = (vscode.workspace.workspaceFolders ?? []).map(({ uri }) => uri.toString());
  const onDisk = foldersOnDisk();
  if (folders.length === 0 || folders.length !== onDisk.length || !firstServer.connected) return;
  const settings = vscode.workspace.getConfiguration('lotwright');
  firstServer.send({ lotwrightAhead: { folders, onDisk, settings } } satisfies AheadMessage);
}
