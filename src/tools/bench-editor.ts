/**
 * `npm run bench:editor [-- --lots 60,400,3000,20000] [--rounds 3] [--keys 12] [--crlf] [--heap 512] [--alone]`
 *
 * From a key to findings over the protocol, beside the general YAML language server with the same schema assigned and
 * its own delay taken away. Same text, same client, in turn: in each round first one server and then the other, each in
 * a fresh process. Ours answers with the findings of the whole domain, the other with those of the schema. Ratios are
 * those of the medians of the rounds. At 20,000 lots ours is given a heap of 512 MB, the other as much as it wants.
 * Processor time is that of the whole process, whatever else the machine does. Linux only. Nothing here is a test: no
 * result passes or fails.
 */
import { mkdirSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import { buildSync } from 'esbuild';
import { BenchClient, type BenchServer, type Key } from './bench-editor-client';
import { type EditorSize, oneText, SIZES, seasonSections } from './bench-editor-text';

const root = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '../..');
const from = (file: string) => path.join(root, file);
const serverFile = from('out/bench/server.cjs');
const peerEntry = path.join(
  path.dirname(createRequire(import.meta.url).resolve('yaml-language-server/package.json')),
  'bin/yaml-language-server',
);

const { values: options } = parseArgs({
  options: {
    lots: { type: 'string', default: '60,400,3000,20000' },
    rounds: { type: 'string', default: '3' },
    keys: { type: 'string', default: '12' },
    crlf: { type: 'boolean', default: false },
    heap: { type: 'string' },
    alone: { type: 'boolean', default: false },
  },
});

const OURS: BenchServer = {
  name: 'lotwright',
  args: [serverFile, '--stdio'],
  settings: {},
  doneBy: 'lotwright/timelineChanged',
};

const PEER: BenchServer = {
  name: 'peer',
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

/** Milliseconds, and megabytes. */
interface Round {
  readonly start: number;
  readonly open: number;
  readonly openProcessor: number;
  readonly keys: readonly number[];
  /** Of one key, on average. */
  readonly keyProcessor: number;
  /** In a fill's day of sealing, and in an order's cartons. */
  readonly inFill: number;
  readonly inDemand: number;
  readonly insert: number;
  readonly header: number;
  readonly paste: number;
  readonly hover: number;
  readonly completion: number;
  readonly memory: number;
  readonly diagnostics: number;
}

async function main(): Promise<void> {
  const rounds = Number(options.rounds);
  const chosen = options.lots.split(',').map(Number);
  for (const size of SIZES.filter(({ lots }) => chosen.includes(lots))) {
    const text = textOf(size);
    const ours: Round[] = [];
    const peers: Round[] = [];
    for (let round = 0; round < rounds; round++) {
      ours.push(await measure(OURS, text, size));
      if (!options.alone) peers.push(await measure(PEER, text, size));
    }
    print(size, text, ours, peers);
  }
}

function textOf(size: EditorSize): string {
  const text = oneText(seasonSections(size));
  return options.crlf ? text.replaceAll('\n', '\r\n') : text;
}

/** So large that each key takes the other server many seconds. */
const LARGE = 10_000;

async function measure(server: BenchServer, text: string, { lots }: EditorSize): Promise<Round> {
  const isLarge = lots > LARGE;
  const heap = Number(options.heap) || (isLarge && server === OURS ? 512 : undefined);
  const client = new BenchClient(server, 'file:///bench/plan.lotplan.yaml', heap);
  try {
    const start = await client.start();
    const open = await client.open(text);
    const openProcessor = client.processorTime();
    const { diagnostics } = client;
    const place = middleBins(text);
    const [first, second, ...typed] = typedKeys(place, isLarge ? 6 : Number(options.keys));
    // The first two warm the server up.
    for (const key of [first, second]) if (key) await client.key(key);
    const began = client.processorTime();
    const warm: number[] = [];
    for (const key of typed) warm.push(await client.key(key));
    const keyProcessor = (client.processorTime() - began) / typed.length;
    const inFill = await keysAt(client, lastDigit(text, 'fills', 'sealed: '), '23');
    const inDemand = await keysAt(client, lastDigit(text, 'demand', 'cartons: '), '78');
    const insert = await client.key({ from: place, to: place, text: '1' });
    await client.key({ from: place, to: place + 1, text: '' });
    const digit: Key = { from: place, to: place + 1, text: '4' };
    const hover = await client.keyThen(digit, 'textDocument/hover', place);
    const completion = await client.keyThen({ ...digit, text: '5' }, 'textDocument/completion', place);
    const header = text.indexOf('\nlots:') + 5;
    const broken = await client.key({ from: header, to: header + 1, text: '' });
    await client.key({ from: header, to: header, text: ':' });
    const pasted = pastedLots(text);
    const paste = await client.key({ from: pasted.at, to: pasted.at, text: pasted.text });
    return {
      start,
      open,
      openProcessor,
      keys: warm,
      keyProcessor,
      inFill,
      inDemand,
      insert,
      header: broken,
      paste,
      hover,
      completion,
      memory: client.memory(),
      diagnostics,
    };
  } finally {
    client.stop();
  }
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

/** Digits typed one over the other, three times, and what the median of them takes. */
async function keysAt(client: BenchClient, at: number, digits: string): Promise<number> {
  const took: number[] = [];
  for (let time = 0; time < 3; time++)
    for (const digit of digits) took.push(await client.key({ from: at, to: at + 1, text: digit }));
  return median(took);
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
  const end = options.crlf ? '\r\n' : '\n';
  return { at: first, text: lines.join(end) + end };
}

function print(size: EditorSize, text: string, ours: readonly Round[], peers: readonly Round[]): void {
  const lines = text.split('\n').length;
  console.log(
    `\n${size.lots} lots, ${size.rooms} rooms: ${text.length} characters, ${lines} lines, ${options.crlf ? 'CRLF' : 'LF'}; ${ours.length} rounds; findings ours ${ours[0]?.diagnostics}, peer ${peers[0]?.diagnostics ?? '-'}`,
  );
  console.log(
    ['', 'ours', 'peer raw', 'ratio'].map((cell, index) => cell.padStart(index ? 12 : 34)).join(''),
  );
  const row = (name: string, unit: string, of: (round: Round) => number) => {
    const [mine, theirs] = [median(ours.map(of)), median(peers.map(of))];
    const cells = [`${mine.toFixed(1)} ${unit}`, `${theirs.toFixed(1)} ${unit}`, (theirs / mine).toFixed(1)];
    console.log(name.padEnd(34) + cells.map((cell) => cell.padStart(12)).join(''));
  };
  row('key to findings, median', 'ms', ({ keys }) => quantile(keys, 0.5));
  row('key to findings, 95th percentile', 'ms', ({ keys }) => quantile(keys, 0.95));
  row('processor time of a key', 'ms', ({ keyProcessor }) => keyProcessor);
  row("key in a fill's day", 'ms', ({ inFill }) => inFill);
  row("key in an order's cartons", 'ms', ({ inDemand }) => inDemand);
  row('key that moves what is below', 'ms', ({ insert }) => insert);
  row('section header broken', 'ms', ({ header }) => header);
  row('200 lots pasted', 'ms', ({ paste }) => paste);
  row('hover right after a key', 'ms', ({ hover }) => hover);
  row('completion right after a key', 'ms', ({ completion }) => completion);
  row('open to findings', 'ms', ({ open }) => open);
  row('processor time, start and open', 'ms', ({ openProcessor }) => openProcessor);
  row('start to first answer', 'ms', ({ start }) => start);
  row('memory at the end', 'MB', ({ memory }) => memory);
}

function median(values: readonly number[]): number {
  return quantile(values, 0.5);
}

function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN;
}

/** Bundled as the product is. */
function bundleServer(): void {
  mkdirSync(path.dirname(serverFile), { recursive: true });
  buildSync({
    absWorkingDir: root,
    entryPoints: ['src/server/node.ts'],
    outfile: serverFile,
    bundle: true,
    platform: 'node',
    format: 'cjs',
    target: 'node20',
    minifyWhitespace: true,
    minifySyntax: true,
    alias: { highs: from('node_modules/highs/build/highs.js') },
    logLevel: 'warning',
  });
}

bundleServer();
main().catch((error: unknown) => {
  console.error(error);
  process.exitCode = 1;
});
