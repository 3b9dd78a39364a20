import { type Connection, DidChangeWatchedFilesNotification, WatchKind } from 'vscode-languageserver';

/** Asks the client to tell of the files that a plan is made of, and of what is deleted. */
export function watchFiles(connection: Connection): void {
  void connection.client.register(DidChangeWatchedFilesNotification.type, {
    watchers: [
      { globPattern: '**/*.lotplan.yaml' },
      // Readings that a plan names.
      { globPattern: '**/*.{csv,tsv,txt}' },
      { globPattern: '**/*', kind: WatchKind.Delete },
    ],
  });
}
