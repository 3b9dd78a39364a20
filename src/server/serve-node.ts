import path from 'node:path';
import { fileURLToPath } from 'node:url';
import {
  createConnection,
  IPCMessageReader,
  IPCMessageWriter,
  type Message,
  type MessageStrategy,
  type MessageWriter,
  ProposedFeatures,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-languageserver/node';
import { dayOf, later, now } from './clock';
import { conversation } from './conversation';
import { nodeDisk } from './disk/node-disk';
import { diskFiles } from './disk-files';
import type { RequestId } from './first-answer';
import type { Ahead } from './protocol-ahead';
import { startServer } from './server';
import { SpelledAddresses } from './spelled-addresses';
import { HELP, type SpokenOver, spokenOver } from './spoken-over';

export interface Taken {
  readonly over: 'ipc' | 'stdio';
  /** The first request, where it has been answered already. */
  readonly answered: RequestId | undefined;
}

export interface Serving {
  /** A client that has been spoken to already; else the command line says where it is. */
  readonly taken?: Taken;
  /** What the client has said of its folders before its first request. */
  readonly ahead?: Ahead | undefined;
  /** Keeps what the engine has made of the server's own files. */
  keep(): Promise<void>;
}

/** Does what the process's options ask for; one that is unknown is told in a line, and the process then ends with 2. */
export function serveBy(words: readonly string[], ways: Readonly<Record<SpokenOver, () => void>>): void {
  const over = spokenOver(words);
  if (over === 'help') process.stdout.write(HELP);
  else if (typeof over === 'string') ways[over]();
  else {
    process.stderr.write(`lotwright server: ${over.fault}\n`);
    process.exitCode = 2;
  }
}

/** The whole server, in Node. */
export function serve({ taken, ahead, keep }: Serving): void {
  const connection = taken ? connectionOf(taken) : createConnection(ProposedFeatures.all, conversation());
  startServer(connection, {
    today: () => dayOf(new Date()),
    run: String(Date.now()),
    later,
    now,
    loadSolver: async () => {
      const { highsForNode } = await import('../release/highs-node');
      return highsForNode(path.join(__dirname, 'highs.wasm'))();
    },
    files: diskFiles,
    disk: { ...nodeDisk, pathOf: (uri) => fileURLToPath(uri) },
    hasTime: keep,
    ...(ahead && { ahead }),
  });
  connection.listen();
}

function connectionOf({ over, answered }: Taken) {
  if (over === 'ipc') {
    const { writer, options } = spelled(withoutAnswer(new IPCMessageWriter(process), answered));
    return createConnection(ProposedFeatures.all, new IPCMessageReader(process), writer, options);
  }
  // A client that has gone without a word.
  process.stdin.on('end', () => process.exit(1));
  const { writer, options } = spelled(withoutAnswer(new StreamMessageWriter(process.stdout), answered));
  return createConnection(ProposedFeatures.all, new StreamMessageReader(process.stdin), writer, options);
}

/** A conversation in which each side has addresses in its own spelling. */
function spelled(writer: MessageWriter) {
  const addresses = new SpelledAddresses();
  const write = writer.write.bind(writer);
  writer.write = (message: Message) => write(addresses.given(message));
  const { messageStrategy } = conversation();
  return {
    writer,
    options: {
      messageStrategy: {
        handleMessage: (message, next) => messageStrategy.handleMessage(addresses.taken(message), next),
      } satisfies MessageStrategy,
    },
  };
}

/** Leaves out the answer to a request that has its answer. */
function withoutAnswer(writer: MessageWriter, answered: RequestId | undefined): MessageWriter {
  const write = writer.write.bind(writer);
  let left = answered;
  writer.write = (message: Message & { readonly id?: unknown; readonly method?: unknown }) => {
    if (left === undefined || message.method !== undefined || message.id !== left) return write(message);
    left = undefined;
    return Promise.resolve();
  };
  return writer;
}
