import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type Disk, leftOutBy, walkedFiles } from '../src/server/disk/walked-files';
import { type FindFilesParams, type ReadFilesParams, requests } from '../src/server/protocol';
import { type GrownParams, type GrownText, grownText, readGrownRequest } from '../src/server/protocol-grown';
import { base64Of, solverProgramRequest } from '../src/server/protocol-papers';
import { excludedIn } from './folders-on-disk';

const ENDING = '.lotplan.yaml';

/**
 * Lets the server see plan files on whatever file system the workspace lies: it reads a disk itself only while a window
 * opens. What is on this machine's disk is read there, for the editor answers what it is asked about files only when its
 * window is all there, seconds after the extension has begun.
 */
export function servePlanFiles(client: BaseLanguageClient, dist: vscode.Uri, disk: Disk | undefined): void {
  client.onRequest(requests.findFiles, async ({ folder }: FindFilesParams) => {
    const uri = vscode.Uri.parse(folder);
    const found = (await walked(uri, disk)) ?? (await searched(uri));
    return found.map((one) => client.code2ProtocolConverter.asUri(one));
  });
  client.onRequest(requests.readFiles, ({ uris }: ReadFilesParams) =>
    Promise.all(uris.map((uri) => readOrNull(vscode.Uri.parse(uri), disk))),
  );
  client.onRequest(readGrownRequest, async ({ uri, known }: GrownParams): Promise<GrownText | null> => {
    try {
      return grownText(await bytesOf(vscode.Uri.parse(uri), disk), known);
    } catch {
      return null;
    }
  });
  client.onRequest(solverProgramRequest, async () =>
    base64Of(await vscode.workspace.fs.readFile(vscode.Uri.joinPath(dist, 'highs.wasm'))),
  );
}

/** Plan files below a folder on the disk; undefined where it is not for looking through. */
async function walked(folder: vscode.Uri, disk: Disk | undefined): Promise<vscode.Uri[] | undefined> {
  if (!disk || folder.scheme !== 'file') return undefined;
  const isLeftOut = leftOutBy(excludedIn(folder));
  return (
    isLeftOut &&
    walkedFiles(folder, ENDING, isLeftOut, {
      list: (at) => disk.list(at.fsPath),
      below: (at, name) => vscode.Uri.joinPath(at, name),
    })
  );
}

/** The same by the editor's own search. */
async function searched(folder: vscode.Uri): Promise<vscode.Uri[]> {
  const pattern = new vscode.RelativePattern(folder, `**/*${ENDING}`);
  return vscode.workspace.findFiles(pattern, '**/node_modules/**');
}

async function readOrNull(uri: vscode.Uri, disk: Disk | undefined): Promise<string | null> {
  try {
    // The decoder drops a byte order mark, as the editor does.
    return new TextDecoder().decode(await bytesOf(uri, disk));
  } catch {
    return null;
  }
}

async function bytesOf(uri: vscode.Uri, disk: Disk | undefined): Promise<Uint8Array> {
  return disk && uri.scheme === 'file' ? disk.read(uri.fsPath) : vscode.workspace.fs.readFile(uri);
}
