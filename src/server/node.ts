// The language server as a process: on its standard streams, or as an option says (`spoken-over.ts`).
import path from 'node:path';
import { setFlagsFromString } from 'node:v8';
import envPaths from 'env-paths';
import { compilingRarely } from '../report/engine-settings';
import { CompiledFiles } from './compiled-files';
import { answerTo, firstMessage, framed, type RequestId } from './first-answer';
import { type Ahead, aheadIn } from './protocol-ahead';

for (const setting of compilingRarely(process.versions.v8)) setFlagsFromString(setting);

// What is no longer needed is cleared away when there is two thirds as much of it as of what is: the engine would wait
// until there is several times as much, and an editor has many servers beside this one. Half as much costs time.
setFlagsFromString('--heap-growing-percent=70');

// Room for what is young: four megabytes for each of its halves, which the first growth gives. The engine would go on to
// sixteen, which saves nothing measurable here and would be the largest part of a small plan's memory.
let growth = 4;
setGrowth(growth);

/** What is kept of compiled files is of use to an engine with the same settings only. */
function asFirst<Result>(work: () => Result): Result {
  const now = growth;
  setGrowth(4);
  try {
    return work();
  } finally {
    setGrowth(now);
  }
}

function setGrowth(factor: number): void {
  growth = factor;
  setFlagsFromString(`--semi-space-growth-factor=${factor}`);
}

const compiled = new CompiledFiles(__dirname, keptFolder(), asFirst);

/** Once there is time for it, and at the end. */
const keep = () => compiled.keep();

/** In the user's own folder for what can be made again; Node's names for another folder and for none hold here too. */
function keptFolder(): string | undefined {
  const { NODE_DISABLE_COMPILE_CACHE: none, NODE_COMPILE_CACHE: other } = process.env;
  if (none) return undefined;
  return path.join(other || envPaths('lotwright', { suffix: '' }).cache, 'server');
}

/**
 * The first request is answered before the server has been loaded: what it is able to do is known, and the client works
 * on the answer meanwhile. The request is then handed on with all that followed it, and its second answer is left out.
 */
const words = process.argv.slice(2).filter((word) => !/^--clientProcessId=\d+$/.test(word));
const [way = '--stdio', ...more] = words;
if (more.length > 0) otherwise();
else if (way === '--node-ipc') overIpc();
else if (way === '--stdio') overStdio();
else otherwise();

/** Ways that are seldom taken, and options that are none, need no word in a file that every start reads. */
function otherwise(): void {
  loaded().serveBy(process.argv.slice(2), {
    ipc: overIpc,
    stdio: overStdio,
    library: () => loaded().serve({ keep }),
  });
}

/** The rest of the server. What is young has grown as far as it should by the time it is there. */
function loaded(): typeof import('./serve-node') {
  const parts = compiled.load('server-parts.cjs') as typeof import('./serve-node');
  setGrowth(1);
  return parts;
}

function overIpc(): void {
  const kept: unknown[] = [];
  let ahead: Ahead | undefined;
  const hear = (message: unknown) => {
    const said = kept.length === 0 ? aheadIn(message) : undefined;
    if (said) {
      ahead = said;
      return;
    }
    kept.push(message);
    if (kept.length > 1) return;
    const answer = answerTo(message);
    if (answer) process.send?.(answer);
    // With the answer on its way.
    setImmediate(() => begin(answer?.id));
  };
  const begin = async (answered: RequestId | undefined) => {
    const { serve } = loaded();
    await serve({ taken: { over: 'ipc', answered }, ahead, keep });
    process.off('message', hear);
    for (const one of kept) process.emit('message', one, undefined);
  };
  process.on('message', hear);
  // A client that has nothing to say yet need not wait for the rest later.
  setImmediate(() => {
    if (kept.length === 0) void begin(undefined);
  });
}

function overStdio(): void {
  const { stdin, stdout } = process;
  const chunks: Buffer[] = [];
  const ended = () => process.exit(1);
  const hear = (chunk: Buffer) => {
    chunks.push(chunk);
    const text = Buffer.concat(chunks);
    const message = firstMessage(text);
    if (!message) return;
    stdin.off('data', hear);
    stdin.off('end', ended);
    stdin.pause();
    stdin.unshift(text);
    const answer = answerTo(message.content);
    if (answer) stdout.write(framed(answer));
    setImmediate(async () => {
      const { serve } = loaded();
      await serve({ taken: { over: 'stdio', answered: answer?.id }, keep });
      stdin.resume();
    });
  };
  stdin.on('data', hear);
  stdin.on('end', ended);
}
