/** A language client for the benchmark: one server as a process over its standard streams, one document. */
import { type ChildProcess, spawn } from 'node:child_process';
import { readdirSync, readFileSync } from 'node:fs';
import {
  createProtocolConnection,
  type ProtocolConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';

export interface BenchServer {
  readonly name: 'lotwright' | 'peer';
  /** The Node that runs it. */
  readonly engine: string;
  readonly args: readonly string[];
  /** Beside what the process has from ours. */
  readonly env?: Readonly<Record<string, string>>;
  /** Configuration by section, as the server asks for it. */
  readonly settings: Readonly<Record<string, unknown>>;
  /** The notification that says a version has been dealt with; diagnostics come before it or are it. */
  readonly doneBy: 'textDocument/publishDiagnostics' | 'lotwright/timelineChanged';
}

/** A change of the document: characters from one offset to another are replaced. */
export interface Key {
  readonly from: number;
  readonly to: number;
  readonly text: string;
}

/** What something took. */
export interface Took {
  /** Milliseconds by the clock. */
  readonly ms: number;
  /** Milliseconds of the server's processor time, all its threads together. */
  readonly processor: number;
}

/** Megabytes. */
export interface Memory {
  readonly now: number;
  readonly most: number;
}

/** At 20,000 lots the other server needs minutes for what is asked of it. */
const LONGEST_MS = 1_800_000;
const QUIET_MS = 400;
/** Linux counts processor time in ticks. */
const TICK_MS = 10;
const NANOSECONDS = 1e6;

export class BenchClient {
  private readonly process: ChildProcess;
  private readonly connection: ProtocolConnection;
  private version = 0;
  private text = '';
  private done: () => void = () => {};
  diagnostics = 0;

  constructor(
    private readonly server: BenchServer,
    private readonly uri: string,
    heapMegabytes?: number,
  ) {
    const heap = heapMegabytes ? [`--max-old-space-size=${heapMegabytes}`] : [];
    this.process = spawn(server.engine, [...heap, ...server.args], {
      env: { ...process.env, ...server.env },
      stdio: ['pipe', 'pipe', 'ignore'],
    });
    const { stdin, stdout } = this.process;
    if (!stdin || !stdout) throw new Error('the server has no streams');
    this.connection = createProtocolConnection(
      new StreamMessageReader(stdout),
      new StreamMessageWriter(stdin),
    );
    this.connection.onNotification(
      'textDocument/publishDiagnostics',
      (params: { diagnostics: unknown[] }) => {
        this.diagnostics = params.diagnostics.length;
        if (server.doneBy === 'textDocument/publishDiagnostics') this.done();
      },
    );
    this.connection.onNotification(
      'lotwright/timelineChanged',
      ({ versions }: { versions: Record<string, number> }) => {
        // A schedule that has been found for an older text tells of that one.
        if (versions[this.uri] === this.version) this.done();
      },
    );
    this.connection.onRequest('workspace/configuration', ({ items }: { items: { section?: string }[] }) =>
      items.map(({ section }) => server.settings[section ?? ''] ?? null),
    );
    this.connection.onRequest('client/registerCapability', () => null);
    this.connection.listen();
  }

  /** Milliseconds from the start of the process to the answer to `initialize`. */
  async start(): Promise<number> {
    const began = performance.now();
    await this.connection.sendRequest('initialize', {
      processId: process.pid,
      rootUri: null,
      capabilities: { workspace: { configuration: true } },
      workspaceFolders: null,
    });
    const took = performance.now() - began;
    await this.connection.sendNotification('initialized', {});
    return took;
  }

  /** From opening the document to its diagnostics. */
  async open(text: string): Promise<Took> {
    this.text = text;
    this.version = 1;
    const textDocument = { uri: this.uri, languageId: 'yaml', version: 1, text };
    const before = this.processorNow();
    const ms = await this.timed(
      () => void this.connection.sendNotification('textDocument/didOpen', { textDocument }),
    );
    return { ms, processor: this.processorNow() - before };
  }

  /** From a change to the diagnostics of the text with it. */
  async key(key: Key): Promise<Took> {
    const send = this.changeOf(key);
    const before = this.processorNow();
    const ms = await this.timed(send);
    return { ms, processor: this.processorNow() - before };
  }

  /** From a change to the answer to a request made right behind it; then waits for the diagnostics of the change. */
  async keyThen(key: Key, method: string, offset: number): Promise<Took> {
    let answered: Took | undefined;
    const send = this.changeOf(key);
    const position = positionIn(this.text, offset);
    const before = this.processorNow();
    await this.timed(() => {
      send();
      const began = performance.now();
      void this.connection.sendRequest(method, { textDocument: { uri: this.uri }, position }).then(() => {
        answered = { ms: performance.now() - began, processor: this.processorNow() - before };
      });
    });
    while (!answered) await new Promise((resolve) => setTimeout(resolve, 5));
    return answered;
  }

  /** Waits until the server has done nothing for a while: all that it loads is loaded. */
  async isIdle(): Promise<void> {
    for (let before = -1; before !== this.processorNow(); ) {
      before = this.processorNow();
      await new Promise((resolve) => setTimeout(resolve, QUIET_MS));
    }
  }

  /** Megabytes of the process that are in memory, now and at most so far. */
  memory(): Memory {
    const status = readFileSync(`/proc/${this.process.pid}/status`, 'utf8');
    const megabytes = (field: string) =>
      Number(new RegExp(`${field}:\\s+(\\d+)`).exec(status)?.[1] ?? 0) / 1024;
    return { now: megabytes('VmRSS'), most: megabytes('VmHWM') };
  }

  /** Milliseconds of processor time of all threads that the process has now, to the microsecond. */
  private processorNow(): number {
    const tasks = `/proc/${this.process.pid}/task`;
    let nanoseconds = 0;
    for (const task of readdirSync(tasks)) {
      try {
        nanoseconds += Number(readFileSync(`${tasks}/${task}/schedstat`, 'utf8').split(' ')[0]);
      } catch {
        // A thread that has just ended.
      }
    }
    return nanoseconds / NANOSECONDS;
  }

  /** Milliseconds of processor time that the process has taken since its start, in ticks of ten. */
  processorTime(): number {
    const stat = readFileSync(`/proc/${this.process.pid}/stat`, 'utf8');
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    return (Number(fields[11]) + Number(fields[12])) * TICK_MS;
  }

  get isAlive(): boolean {
    return this.process.exitCode === null && this.process.signalCode === null;
  }

  stop(): void {
    this.connection.dispose();
    this.process.kill('SIGKILL');
  }

  /** Makes a change, and gives what tells the server of it: what an editor knows beforehand is no part of a key's time. */
  private changeOf({ from, to, text }: Key): () => void {
    const range = { start: positionIn(this.text, from), end: positionIn(this.text, to) };
    this.text = this.text.slice(0, from) + text + this.text.slice(to);
    this.version++;
    const params = {
      textDocument: { uri: this.uri, version: this.version },
      contentChanges: [{ range, text }],
    };
    return () => void this.connection.sendNotification('textDocument/didChange', params);
  }

  private timed(work: () => void): Promise<number> {
    return new Promise((resolve, reject) => {
      const timer = setTimeout(() => reject(new Error(`${this.server.name} said nothing`)), LONGEST_MS);
      const ended = () => {
        clearTimeout(timer);
        reject(new Error(`${this.server.name} has ended`));
      };
      this.process.once('exit', ended);
      const began = performance.now();
      this.done = () => {
        const took = performance.now() - began;
        this.done = () => {};
        clearTimeout(timer);
        this.process.off('exit', ended);
        resolve(took);
      };
      work();
    });
  }
}

function positionIn(text: string, offset: number): { line: number; character: number } {
  let line = 0;
  let start = 0;
  for (let feed = text.indexOf('\n'); feed >= 0 && feed < offset; feed = text.indexOf('\n', start)) {
    line++;
    start = feed + 1;
  }
  return { line, character: offset - start };
}
