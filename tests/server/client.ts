import { PassThrough } from 'node:stream';
import {
  createConnection,
  createProtocolConnection,
  type Diagnostic,
  type ProtocolConnection,
  type PublishDiagnosticsParams,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { highsForNode } from '../../src/release/highs-node';
import { later, now } from '../../src/server/clock';
import { conversation } from '../../src/server/conversation';
import type { AddressedDisk } from '../../src/server/opening-files';
import { notifications, type PlanComputed, requests } from '../../src/server/protocol';
import type { Ahead } from '../../src/server/protocol-ahead';
import { type GrownParams, grownText, readGrownRequest } from '../../src/server/protocol-grown';
import { startServer } from '../../src/server/server';

export const ROOT = 'file:///farm';

export interface ClientOptions {
  readonly settings?: unknown;
  readonly folders?: readonly string[];
  readonly today?: number;
  /** Rest after an edit before what takes longer is looked for, milliseconds; 20 by default. */
  readonly idle?: number;
  /** Whether the client has the extension's commands; it has by default. */
  readonly clientCommands?: boolean;
  /** What is said of the folders before the first request, and again in it. */
  readonly ahead?: Ahead;
  readonly onDisk?: Ahead['onDisk'];
  readonly disk?: AddressedDisk;
  /** What it says that it can; asking for settings and folders by default. */
  readonly capabilities?: object;
}

/** A language client at the other end of an in-memory connection, with files that exist only here. */
export class TestClient {
  readonly published: PublishDiagnosticsParams[] = [];
  readonly computed: PlanComputed[] = [];
  /** What was told of files that grow. */
  readonly grown: { readonly uri: string; readonly letters: number }[] = [];
  readonly connection: ProtocolConnection;
  /** What the server wrote into the client's log. */
  readonly log: string[] = [];
  private readonly server;
  private readonly versions = new Map<string, number>();
  private readonly watchers: (() => void)[] = [];
  /** How much had been computed when text was changed last. */
  private computedAtChange = 0;

  constructor(
    readonly files: Map<string, string>,
    private readonly options: ClientOptions = {},
  ) {
    const [up, down] = [new PassThrough(), new PassThrough()];
    this.server = createConnection(
      new StreamMessageReader(up),
      new StreamMessageWriter(down),
      conversation(),
    );
    startServer(this.server, {
      today: () => options.today,
      run: 'test',
      later,
      now,
      delays: { idle: options.idle ?? 20 },
      loadSolver: highsForNode(),
      ...(options.ahead && { ahead: options.ahead }),
      ...(options.disk && { disk: options.disk }),
    });
    this.server.listen();
    this.connection = createProtocolConnection(new StreamMessageReader(down), new StreamMessageWriter(up));
    this.connection.onNotification('textDocument/publishDiagnostics', (params: PublishDiagnosticsParams) => {
      this.published.push(params);
      this.look();
    });
    this.connection.onNotification(notifications.timelineChanged, (params: PlanComputed) => {
      this.computed.push(params);
      this.look();
    });
    this.connection.onNotification('window/logMessage', ({ message }: { message: string }) => {
      this.log.push(message);
      this.look();
    });
    this.connection.onRequest(requests.findFiles, ({ folder }: { folder: string }) =>
      [...this.files.keys()].filter((uri) => uri.startsWith(`${folder}/`) && uri.endsWith('.lotplan.yaml')),
    );
    this.connection.onRequest(requests.readFiles, ({ uris }: { uris: string[] }) =>
      uris.map((uri) => this.files.get(uri) ?? null),
    );
    this.connection.onRequest(readGrownRequest, ({ uri, known }: GrownParams) => {
      const text = this.files.get(uri);
      const grown = text === undefined ? null : grownText(new TextEncoder().encode(text), known);
      this.grown.push({ uri, letters: grown ? grown.lines.length + grown.rest.length : 0 });
      return grown;
    });
    this.connection.onRequest('workspace/configuration', () => [this.options.settings ?? null]);
    this.connection.onRequest('client/registerCapability', () => null);
    this.connection.listen();
  }

  async start(): Promise<void> {
    await this.connection.sendRequest('initialize', {
      processId: null,
      rootUri: null,
      capabilities: this.options.capabilities ?? {
        workspace: { configuration: true, workspaceFolders: true },
      },
      workspaceFolders: (this.options.folders ?? [ROOT]).map((uri) => ({ uri, name: uri })),
      initializationOptions: {
        clientReadsFiles: true,
        clientCommands: this.options.clientCommands ?? true,
        pagesUri: 'file:///lotwright/pages',
        ...(this.options.onDisk && { onDisk: this.options.onDisk, settings: this.options.settings ?? null }),
      },
    });
    await this.connection.sendNotification('initialized', {});
  }

  open(uri: string, text: string): void {
    this.versions.set(uri, 1);
    void this.connection.sendNotification('textDocument/didOpen', {
      textDocument: { uri, languageId: 'lotplan', version: 1, text },
    });
  }

  change(uri: string, text: string): number {
    const version = (this.versions.get(uri) ?? 0) + 1;
    this.versions.set(uri, version);
    this.computedAtChange = this.computed.length;
    void this.connection.sendNotification('textDocument/didChange', {
      textDocument: { uri, version },
      contentChanges: [{ text }],
    });
    return version;
  }

  close(uri: string): void {
    void this.connection.sendNotification('textDocument/didClose', { textDocument: { uri } });
  }

  /** Changes a file behind the editor's back. */
  writeFile(uri: string, text: string | undefined): void {
    if (text === undefined) this.files.delete(uri);
    else this.files.set(uri, text);
    void this.connection.sendNotification('workspace/didChangeWatchedFiles', {
      changes: [{ uri, type: text === undefined ? 3 : 2 }],
    });
  }

  /** Tells of a folder that was deleted, as a watcher of files does. */
  deleteFolder(uri: string): void {
    void this.connection.sendNotification('workspace/didChangeWatchedFiles', { changes: [{ uri, type: 3 }] });
  }

  request<T>(method: string, params: unknown): Promise<T> {
    return this.connection.sendRequest<T>(method, params);
  }

  /** What is shown for a file now. */
  diagnostics(uri: string): Diagnostic[] {
    return this.published.findLast((params) => params.uri === uri)?.diagnostics ?? [];
  }

  codes(uri: string): string[] {
    return this.diagnostics(uri).map(({ code }) => String(code));
  }

  /** Resolves once the condition holds; it is asked again whenever the server has said something. */
  until(what: string, holds: () => boolean): Promise<void> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error(`waited in vain: ${what}`)), 20_000);
      const look = () => {
        if (!holds()) return;
        clearTimeout(timer);
        resolve();
      };
      this.watchers.push(look);
      look();
    });
  }

  /** Resolves when schedule and courses of the present text have been found, for every plan, and it rests. */
  async settled(): Promise<void> {
    const latest = () => new Map(this.computed.map((one) => [one.root, one.isSettled]));
    for (let waited = 0; ; waited += 100) {
      const before = this.computed.length;
      await new Promise((resolve) => setTimeout(resolve, 100));
      const isSettled = before > 0 && [...latest().values()].every((settled) => settled);
      // On a busy machine an edit may lie unread for a while; not every one is followed by a computation.
      const isHeard = before > this.computedAtChange || waited > 3000;
      if (isHeard && isSettled && this.computed.length === before) return;
    }
  }

  async stop(): Promise<void> {
    await this.connection.sendRequest('shutdown');
    this.dispose();
  }

  /** Goes without a word, as a client does after its request for the end. */
  dispose(): void {
    this.connection.dispose();
    this.server.dispose();
  }

  private look(): void {
    for (const look of this.watchers) look();
  }
}
