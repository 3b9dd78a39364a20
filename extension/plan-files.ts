import * as vscode from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type FindFilesParams, type ReadFilesParams, requests } from '../src/server/protocol';
import { type GrownParams, type GrownText, grownText, readGrownRequest } from '../src/server/protocol-grown';
import { base64Of, solverProgramRequest } from '../src/server/protocol-papers';

/** Lets the server see plan files on whatever file system the workspace lies: it never reads a disk itself. */
export function servePlanFiles(client: BaseLanguageClient, dist: vscode.Uri): void {
  client.onRequest(requests.findFiles, async ({ folder }: FindFilesParams) => {
    const pattern = new vscode.RelativePattern(vscode.Uri.parse(folder), '**/*.lotplan.yaml');
    const found = await vscode.workspace.findFiles(pattern, '**/node_modules/**');
    return found.map((uri) => client.code2ProtocolConverter.asUri(uri));
  });
  client.onRequest(requests.readFiles, ({ uris }: ReadFilesParams) => Promise.all(uris.map(readOrNull)));
  client.onRequest(readGrownRequest, async ({ uri, known }: GrownParams): Promise<GrownText | null> => {
    try {
      return grownText(await vscode.workspace.fs.readFile(vscode.Uri.parse(uri)), known);
    } catch {
      return null;
    }
  });
  client.onRequest(solverProgramRequest, async () =>
    base64Of(await vscode.workspace.fs.readFile(vscode.Uri.joinPath(dist, 'highs.wasm'))),
  );
}

async function readOrNull(uri: string): Promise<string | null> {
  try {
    const bytes = await vscode.workspace.fs.readFile(vscode.Uri.parse(uri));
    // The decoder drops a byte order mark, as the editor does.
    return new TextDecoder().decode(bytes);
  } catch {
    return null;
  }
}
