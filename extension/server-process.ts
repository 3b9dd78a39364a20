import type { ChildProcess } from 'node:child_process';
import { createInterface } from 'node:readline';
import type { Readable } from 'node:stream';
import type { LogOutputChannel } from 'vscode';
import { IPCMessageReader, IPCMessageWriter, type MessageTransports } from 'vscode-languageclient/node';
import { begunServer } from './begun-server';

const LONGEST_END_MS = 2000;

/**
 * The language server as a process of its own. The first one has begun already: while a window opens the editor is busy,
 * and its language client comes to start a process late. Whenever the client asks again, a new one begins.
 */
export class ServerProcess {
  private waiting: ChildProcess | undefined;
  private running: ChildProcess | undefined;

  /** `file` is the server's, and `first` a process of it; what a process writes beside its messages goes to the log. */
  constructor(
    private readonly file: string,
    private readonly log: Pick<LogOutputChannel, 'info' | 'error'>,
    first: ChildProcess,
  ) {
    this.waiting = this.heard(first);
  }

  /** For the client: how to speak to a server that nobody has spoken to. Rejects where none can be started. */
  readonly transports = async (): Promise<MessageTransports> => {
    const { waiting } = this;
    this.waiting = undefined;
    const server = waiting && isAlive(waiting) ? waiting : this.heard(begunServer(this.file));
    if (server.pid === undefined) throw new Error(`No process can be started for ${this.file}.`);
    this.running = server;
    return { reader: new IPCMessageReader(server), writer: new IPCMessageWriter(server) };
  };

  /** Ends a server that has been told to end and has not. */
  async end(): Promise<void> {
    this.waiting?.kill();
    this.waiting = undefined;
    const { running } = this;
    if (!running || !isAlive(running)) return;
    await new Promise<void>((resolve) => {
      const timer = setTimeout(() => running.kill(), LONGEST_END_MS);
      running.once('exit', () => {
        clearTimeout(timer);
        resolve();
      });
    });
  }

  private heard(server: ChildProcess): ChildProcess {
    server.on('error', (error) => this.log.error(error));
    eachLine(server.stdout, (line) => this.log.info(line));
    eachLine(server.stderr, (line) => this.log.error(line));
    return server;
  }
}

function isAlive({ pid, exitCode, signalCode }: ChildProcess): boolean {
  return pid !== undefined && exitCode === null && signalCode === null;
}

function eachLine(stream: Readable | null, hear: (line: string) => void): void {
  if (stream) createInterface({ input: stream, crlfDelay: Number.POSITIVE_INFINITY }).on('line', hear);
}
