// The language server as a web worker. A worker of this file can also compare two plans, for which it has all the
// parts: its first message then says so.
import { BrowserMessageReader, BrowserMessageWriter, createConnection } from 'vscode-languageserver/browser';
import { dayOf, later, now } from './clock';
import { conversation } from './conversation';
import { startServer } from './server';

type Port = ConstructorParameters<typeof BrowserMessageReader>[0];
interface Scope extends Port {
  onmessage: ((event: { readonly data: unknown }) => void) | null;
}

declare const self: Scope;

self.onmessage = (first) => {
  self.onmessage = null;
  // The part that is meant listens before the next message is handed out.
  if (isForChange(first.data)) void import('./change-worker/web');
  else serve(first);
};

/** The reader listens by `onmessage` too: what came first is handed to it once it does. */
function serve(first: { readonly data: unknown }): void {
  const connection = createConnection(
    new BrowserMessageReader(self),
    new BrowserMessageWriter(self),
    conversation(),
  );
  startServer(connection, {
    today: () => dayOf(new Date()),
    run: String(Date.now()),
    later,
    now,
    loadSolver: async (program) => {
      const { highsForWeb } = await import('../release/highs-web');
      return highsForWeb(await program())();
    },
  });
  connection.listen();
  self.onmessage?.(first);
}

function isForChange(data: unknown): boolean {
  return typeof data === 'object' && data !== null && 'purpose' in data && data.purpose === 'change';
}
