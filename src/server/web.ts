// The language server as a web worker.
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { dayOf, later, now } from './clock';
import { startServer } from './server';

declare const self: ConstructorParameters<typeof BrowserMessageReader>[0];

const connection = createConnection(new BrowserMessageReader(self), new BrowserMessageWriter(self));
startServer(connection, { today: () => dayOf(new Date()), run: String(Date.now()), later, now });
connection.listen();
