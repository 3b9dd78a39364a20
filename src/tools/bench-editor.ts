/**
 * `npm run bench:editor [-- --lots 60,400,3000,20000] [--written at-length,briefly] [--endings lf,crlf] [--rounds 3]
 * [--keys 12] [--times 3] [--heap 512] [--peer-heap 8192] [--alone] [--engine own]`
 *
 * From a key to findings over the protocol, beside the general YAML language server with the same schema assigned and
 * its own delay taken away. Same text, same client, in turn: in each round first one server and then the other, each in
 * a fresh process. Ours answers with the findings of the whole domain, the other with those of the schema. What is done
 * `--times` over counts with its median in a round; ratios are those of the medians of the rounds. Everything is done
 * with LF and with CRLF. 20,000 lots are written briefly, and ours is given a heap of 512 MB, the other as much as it
 * wants. Processor time is that of the whole process, whatever else the machine does. Both run on the Node that the VS Code
 * of the suites comes with, where that is installed (`--engine own`: on the one that runs this; or the path of another).
 * Linux only. Nothing here is a test: no result passes or fails.
 */
import { spawnSync } from 'node:child_process';
import { copyFileSync, cpSync, existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { BenchClient, type BenchServer, type Key, type Took } from './bench-editor-client';
import { atLength } from './bench-editor-length';
import { type Ending, type Manner, printTable, type Round } from './bench-editor-table';
import { type EditorSize, oneText, SIZES, seasonSections } from './bench-editor-text';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const from = (file: string) => path.join(root, file);
const serverFile = from('out/bench/server/server.cjs');
const peerEntry = path.join(
  path.dirname(createRequire(import.meta.url).resolve('yaml-language-server/package.json')),
  'bin/yaml-language-server',
);

const { values: options } = parseArgs({
  options: {
    lots: { type: 'string', default: '60,400,3000,20000' },
    written: { type: 'string', default: 'at-length' },
    rounds: { type: 'string', default: '3' },
    keys: { type: 'string', default: '12' },
    endings: { type: 'string', default: 'lf,crlf' },
    times: { type: 'string', default: '3' },
    heap: { type: 'string' },
    'peer-heap': { type: 'string' },
    alone: { type: 'boolean', default: false },
    engine: { type: 'string' },
  },
});

const engine = engineOf(options.engine);

const OURS: BenchServer = {
  name: 'lotwright',
  engine,
  args: [serverFile, '--stdio'],
  env: { NODE_COMPILE_CACHE: from('out/bench/kept') },
  settings: {},
  doneBy: 'lotwright/timelineChanged',
};
/** As where it has never run before. */
const OURS_NEW: BenchServer = { ...OURS, env: { NODE_DISABLE_COMPILE_CACHE: '1' } };

const PEER: BenchServer = {
  name: 'peer',
  engine,
  args: ['--require', from('src/tools/bench-editor-peer.cjs'), peerEntry, '--stdio'],
  settings: {
    yaml: {
      schemas: { [pathToFileURL(from('schemas/lot-plan.schema.json')).href]: '*.lotplan.yaml' },
      schemaStore: { enable: false },
      validate: true,
      hover: true,
      completion: true,
    },
  },
  doneBy: 'textDocument/publishDiagnostics',
};

function engineOf(asked: string | undefined): string {
  const editors = from(`tests/host/node_modules/node-linux-${process.arch}/bin/node`);
  if (asked === 'own' || (asked === undefined && !existsSync(editors))) return process.execPath;
  return asked ?? editors;
}

async function main(): Promise<void> {
  console.log(`Both servers on Node ${spawnSync(engine, ['--version']).stdout.toString().trim().slice(1)}`);
  const rounds = Number(options.rounds);
  const chosen = options.lots.split(',').map(Number);
  const endings = options.endings.split(',').map((ending): Ending => (ending === 'crlf' ? 'crlf' : 'lf'));
  const manners = options.written
    .split(',')
    .flatMap((written) => endings.map((ending): Manner => ({ isAtLength: written !== 'briefly', ending })));
  await keepCompiled();
  for (const size of SIZES.filter(({ lots }) => chosen.includes(lots)))
    for (const asked of manners) {
      // At length the largest is more text than one file may have.
      const manner = { ...asked, isAtLength: asked.isAtLength && size.lots < LARGE };
      const text = textOf(size, manner);
      const ours: Round[] = [];
      const peers: Round[] = [];
      for (let round = 0; round < rounds; round++) {
        ours.push(await measure(OURS, text, size));
        if (!options.alone) peers.push(await measure(PEER, text, size));
      }
      printTable(size, manner, text, { ours, peers });
    }
}

/** A server keeps what the engine has made of it once there is time; see `compiled-files.ts`. */
async function keepCompiled(): Promise<void> {
  const [small] = SIZES;
  if (small)
    await openLoaded(OURS, textOf(small, { isAtLength: true, ending: 'lf' }), undefined, AND_KEPT_MS);
}

function textOf(size: EditorSize, { isAtLength, ending }: Manner): string {
  const sections = seasonSections(size);
  const text = oneText(isAtLength ? atLength(sections) : sections);
  return ending === 'crlf' ? text.replaceAll('\n', '\r\n') : text;
}

const AND_KEPT_MS = 4000;
const URI = 'file:///bench/plan.lotplan.yaml';

/** So large that each key takes the other server many seconds. */
const LARGE = 10_000;

function heapOf(server: BenchServer, isLarge: boolean): number | undefined {
  if (server === PEER) return Number(options['peer-heap']) || undefined;
  return Number(options.heap) || (isLarge ? 512 : undefined);
}

/** From the start of the process to the findings of the text, with the answer to its first request. */
async function startAndOpen(server: BenchServer, text: string, heap: number | undefined): Promise<Took> {
  const client = new BenchClient(server, URI, heap);
  try {
    const start = await client.start();
    const { ms } = await client.open(text);
    return { ms: start + ms, processor: client.processorTime() };
  } finally {
    client.stop();
  }
}

async function openLoaded(
  server: BenchServer,
  text: string,
  heap: number | undefined,
  thenMs = 0,
): Promise<Took> {
  const client = new BenchClient(server, URI, heap);
  try {
    await client.start();
    await client.isIdle();
    const took = await client.open(text);
    await new Promise((resolve) => setTimeout(resolve, thenMs));
    return took;
  } finally {
    client.stop();
  }
}

async function measure(server: BenchServer, text: string, { lots }: EditorSize): Promise<Round> {
  const isLarge = lots > LARGE;
  const heap = heapOf(server, isLarge);
  const loaded = await openLoaded(server, text, heap);
  const opened = await startAndOpen(server, text, heap);
  const openedFirst = server === OURS ? await startAndOpen(OURS_NEW, text, heap) : opened;
  const client = new BenchClient(server, URI, heap);
  const times = isLarge ? 1 : Number(options.times);
  /** An edit, and what takes it back, a few times over. */
  const repeated = async (there: Key, back: Key, backTook: Took[] = []): Promise<Took[]> => {
    const took: Took[] = [];
    for (let time = 0; time < times; time++) {
      took.push(await client.key(there));
      backTook.push(await client.key(back));
    }
    return took;
  };
  try {
    const start = await client.start();
    const { ms: open } = await client.open(text);
    const { diagnostics } = client;
    const place = middleBins(text);
    const [first, second, ...typed] = typedKeys(place, isLarge ? 6 : Number(options.keys));
    // The first two warm the server up.
    for (const key of [first, second]) if (key) await client.key(key);
    const keys: Took[] = [];
    const memoryBetween: number[] = [];
    for (const key of typed) {
      keys.push(await client.key(key));
      memoryBetween.push(client.memory().now);
    }
    const inFill = await keysAt(client, { at: lastDigit(text, 'fills', 'sealed: '), digits: '23', times });
    const inDemand = await keysAt(client, {
      at: lastDigit(text, 'demand', 'cartons: '),
      digits: '78',
      times,
    });
    const insert = await repeated(
      { from: place, to: place, text: '1' },
      { from: place, to: place + 1, text: '' },
    );
    const hover = await asked(client, 'textDocument/hover', { at: place, digits: '45', times });
    const completion = await asked(client, 'textDocument/completion', { at: place, digits: '67', times });
    const header = text.indexOf('\nlots:') + 5;
    const mended: Took[] = [];
    const broken = await repeated(
      { from: header, to: header + 1, text: '' },
      { from: header, to: header, text: ':' },
      mended,
    );
    const pasted = pastedLots(text);
    const paste = await repeated(
      { from: pasted.at, to: pasted.at, text: pasted.text },
      { from: pasted.at, to: pasted.at + pasted.text.length, text: '' },
    );
    return {
      start,
      open,
      opened,
      openedFirst,
      openLoaded: loaded,
      keys,
      inFill,
      inDemand,
      insert,
      header: broken,
      mended,
      paste,
      hover,
      completion,
      memory: client.memory(),
      memoryBetween,
      diagnostics,
    };
  } finally {
    client.stop();
  }
}

/** Digits that are typed in turn one over the other, and how often each. */
interface Typing {
  readonly at: number;
  readonly digits: string;
  readonly times: number;
}

function typing({ at, digits, times }: Typing): Key[] {
  return [...digits.repeat(times)].map((text) => ({ from: at, to: at + 1, text }));
}

async function keysAt(client: BenchClient, typed: Typing): Promise<Took[]> {
  const took: Took[] = [];
  for (const key of typing(typed)) took.push(await client.key(key));
  return took;
}

/** A question right behind each key. */
async function asked(client: BenchClient, method: string, typed: Typing): Promise<Took[]> {
  const took: Took[] = [];
  for (const key of typing(typed)) took.push(await client.keyThen(key, method, typed.at));
  return took;
}

/** Where the bins of the lot in the middle stand. */
function middleBins(text: string): number {
  const lots = text.indexOf('\nlots:');
  const fills = text.indexOf('\nfills:');
  return text.indexOf(' bins: ', (lots + fills) / 2) + ' bins: '.length;
}

/** Where the last character of a key's value stands, in the middle of a section. */
function lastDigit(text: string, section: string, key: string): number {
  const begins = text.indexOf(`\n${section}:`);
  const ends = /\n[a-z]/.exec(text.slice(begins + 1))?.index ?? text.length - begins;
  const value = text.indexOf(key, begins + ends / 2) + key.length;
  return value + (/^[\w-]+/.exec(text.slice(value, value + 20))?.[0].length ?? 1) - 1;
}

/** One character replaced by the next; every fourth makes the value invalid. */
function typedKeys(at: number, count: number): Key[] {
  return Array.from({ length: count }, (_, index) => ({
    from: at,
    to: at + 1,
    text: index % 4 === 3 ? 'x' : `${(index % 4) + 1}`,
  }));
}

/** Two hundred lots under new names, to be put before the first. */
function pastedLots(text: string): { at: number; text: string } {
  const first = text.indexOf('\n', text.indexOf('\nlots:') + 1) + 1;
  const lines = Array.from(
    { length: 200 },
    (_, index) =>
      `  PASTED-${index}: { variety: Gala, picked: 2026-09-08..2026-09-10, bins: 80, received: 78 }`,
  );
  const end = text.includes('\r\n') ? '\r\n' : '\n';
  return { at: first, text: lines.join(end) + end };
}

/** The very files that the packed extension holds. */
function copyServer(): void {
  const packed = from('dist/packed');
  if (!existsSync(packed)) throw new Error('the server is not there: build first');
  cpSync(packed, path.dirname(serverFile), { recursive: true });
  for (const name of ['server.cjs', 'lot-plan.schema.json', 'highs.wasm'])
    copyFileSync(from(`dist/${name}`), path.join(path.dirname(serverFile), name));
}

copyServer();
main().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
