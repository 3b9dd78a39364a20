import type { Connection } from 'vscode-languageserver';
import type { FileSource } from './file-source';
import { type FindFilesParams, type ReadFilesParams, requests } from './protocol';
import { type GrownParams, type GrownText, readGrownRequest } from './protocol-grown';

/** Plan files as the editor sees them, whatever file system they lie on. */
export function clientFiles(connection: Connection): FileSource {
  return {
    find: (folder) =>
      connection.sendRequest<string[]>(requests.findFiles, { folder } satisfies FindFilesParams),
    read: (uris) =>
      connection.sendRequest<(string | null)[]>(requests.readFiles, { uris } satisfies ReadFilesParams),
    grown: (uri, known) =>
      connection.sendRequest<GrownText | null>(readGrownRequest, { uri, known } satisfies GrownParams),
  };
}
