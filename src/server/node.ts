// The language server as a process: `--stdio`, `--node-ipc` or `--socket=<port>`.
import { createConnection, ProposedFeatures } from 'vscode-languageserver/node';
import { dayOf, later, now } from './clock';
import { diskFiles } from './disk-files';
import { startServer } from './server';

const connection = createConnection(ProposedFeatures.all);
startServer(connection, {
  today: () => dayOf(new Date()),
  run: String(Date.now()),
  later,
  now,
  files: diskFiles,
});
connection.listen();
